"""Unidentified parts in the order of what they could unlock, and parts that are alike."""

import pytest

from catalog.models import KnownMark
from catalog.queries.identity import what_it_may_be
from catalog.queries.look_alikes import look_alikes
from catalog.queries.unlocking import unidentified_by_worth
from tests.corner import lay_out_corner
from tests.factories import PartMarkFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def corner(db):
    corner = lay_out_corner()
    corner.part("rod", None)
    corner.part("casting", None)
    corner.part("lettered", None)
    corner.measure("rod", "bore", "12.0")
    return corner


def test_a_piece_that_agrees_with_what_a_wagon_lacks_comes_first(corner):
    corner.measure("casting", "bore", "64.1")
    KnownMark.objects.create(component=corner.components["wheelset"], text="T.I. 201")
    PartMarkFactory(part=corner.parts["lettered"], text="T.I. 201")

    found = unidentified_by_worth()

    assert [part.description for part in found.rows] == ["casting", "lettered", "rod"]
    assert found.why[corner.parts["casting"].pk] == (
        "bore 64.100 ± 0.029 mm agrees with a class E bearing brass: "
        "Wagon 31 lacks a bearing brass among 6 things"
    )
    assert found.why[corner.parts["lettered"].pk].startswith("mark “T.I. 201” agrees")


def test_without_anything_promising_they_stand_in_numerical_order(corner):
    found = unidentified_by_worth()

    assert [part.description for part in found.rows] == ["rod", "casting", "lettered"]
    assert found.why == {}


def test_look_alikes_agree_in_size_or_mark(corner):
    corner.part("brass", "bearing brass")
    corner.measure("brass", "bore", "64.12")
    corner.measure("casting", "Bore", "64.1")
    PartMarkFactory(part=corner.parts["casting"], text="T.I. 2?1")
    PartMarkFactory(part=corner.parts["lettered"], text="T.I. 201")

    part = corner.parts["casting"]
    found = look_alikes(part, what_it_may_be(part).known.readings)

    assert {(one.part.description, one.words) for one in found} == {
        ("brass", "bore 64.120 ± 0.029 mm"),
        ("lettered", "mark “T.I. 201”"),
    }


def test_what_is_measured_is_told_from_what_is_not():
    corner = lay_out_corner()
    corner.part("casting", None)
    corner.part("elbow", None)
    corner.measure("elbow", "pipe bore", "63.5")

    told = {part.description: part.is_measured for part in unidentified_by_worth().rows}

    assert told == {"casting": False, "elbow": True}
