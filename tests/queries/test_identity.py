"""What a part may be, from what is recorded of it, and what to measure next."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalog.models import KnownMark
from catalog.queries.identity import what_it_may_be
from tests.corner import lay_out_corner
from tests.factories import (
    AccessionFactory,
    InstrumentFactory,
    PartMarkFactory,
    RemovalFactory,
    SpecificationFactory,
    VehicleClassFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def corner(db):
    corner = lay_out_corner()
    InstrumentFactory(slug="vernier-caliper", name="Vernier caliper", uncertainty_mm="0.029")
    corner.part("casting", None)
    return corner


def chances(found):
    return {one.name: one.probability for one in (*found.candidates, *found.ruled_out)}


def test_nothing_recorded_leaves_it_open_and_suggests_the_telling_measurement(corner):
    found = what_it_may_be(corner.parts["casting"])

    assert found.sentence == "Nothing is recorded yet that tells one component from another."
    assert {one.name for one in found.candidates} == {
        "class E journal box",
        "class E bearing brass",
        "class E wheelset",
        "something else",
    }
    assert sum(chances(found).values()) == pytest.approx(1)
    best = found.next[0]
    assert best.characteristic.name == best.name
    tools = {one.name: one.instrument.slug for one in found.next}
    assert tools["flange width"] == "rule-32"
    assert tools["bore"] == "vernier-caliper"
    assert len(best.outcomes) >= 2


def test_a_measurement_settles_it_and_gives_the_factor_in_words(corner):
    corner.measure("casting", "Bore", "64.1", uncertainty="0.05")

    found = what_it_may_be(corner.parts["casting"])

    assert found.leader.name == "class E bearing brass"
    assert found.leader.probability > 0.9
    assert found.leader.basis == "dimensions"
    [reason] = [one for one in found.leader.reasons_for if one.words.startswith("bore")]
    assert reason.words.startswith("bore 64.10 ± 0.05 mm: ")
    assert reason.words.endswith("likelier for a class E bearing brass than for something else")
    assert "bore" not in {one.name for one in found.next}
    assert "class E wheelset" in {one.name for one in found.ruled_out}


def test_repeats_that_disagree_are_told(corner):
    corner.measure("casting", "bore", "64.1", "66.0")

    found = what_it_may_be(corner.parts["casting"])

    [told] = found.remarks
    assert told.startswith("bore: The readings 64.100 ± 0.029 mm and 66.000 ± 0.029 mm differ")
    assert found.next[0].in_words == (
        "Measure the bore again: 64.100 ± 0.029 mm and 66.000 ± 0.029 mm disagree."
    )


def test_what_was_looked_for_in_vain_speaks_against_what_has_it(corner):
    casting = corner.parts["casting"]
    before = chances(what_it_may_be(casting))

    found = what_it_may_be(casting, without=["Bore", "no such name"])

    assert found.known.absent == ("bore",)
    assert chances(found)["class E bearing brass"] < before["class E bearing brass"] / 10
    assert "bore" not in {one.name for one in found.next}


def test_what_people_hold_it_to_be_is_said_first(corner):
    corner.part("box", "journal box", vehicle_class=corner.vehicle_class)
    corner.part("brass", "bearing brass", vehicle_class=corner.vehicle_class)
    corner.measure("brass", "bore", "64.1")

    alone, borne_out = (what_it_may_be(corner.parts[name]) for name in ("box", "brass"))

    assert alone.sentence == (
        "Agreed: a class E journal box. The record alone would not tell it from others."
    )
    assert borne_out.sentence.startswith(
        "Agreed: a class E bearing brass. The record bears that out ("
    )


def test_the_class_being_open_the_component_is_told_with_its_reasons(corner):
    other = VehicleClassFactory(designation="Class F")
    limits = {"lower_mm": "63.5", "upper_mm": "65.5"}
    bore = corner.characteristics["bore"]
    other.positions.create(code="L1", component=corner.components["bearing brass"])
    SpecificationFactory(vehicle_class=other, characteristic=bore, **limits)
    corner.measure("casting", "bore", "64.1")

    found = what_it_may_be(corner.parts["casting"])

    assert "a bearing brass (" in found.sentence
    rivals = [one.words.rpartition(" than for ")[2] for one in found.leader.reasons]
    assert any("bearing brass" in rival for rival in rivals)
    assert any("bearing brass" not in rival for rival in rivals if rival)


def test_a_known_mark_speaks_for_its_component(corner):
    KnownMark.objects.create(component=corner.components["journal box"], text="T.I. 207")
    PartMarkFactory(part=corner.parts["casting"], text="T.I. 2?7")

    found = what_it_may_be(corner.parts["casting"])

    assert (found.leader.name, found.leader.basis) == ("class E journal box", "mark")
    assert "T.I. 2?7" in found.leader.reasons_for[0].words


def test_a_mark_on_one_other_piece_counts_for_little(corner):
    corner.part("other", "journal box", vehicle_class=corner.vehicle_class)
    PartMarkFactory(part=corner.parts["other"], text="MFT 31")
    PartMarkFactory(part=corner.parts["casting"], text="MFT 31")

    [reason] = what_it_may_be(corner.parts["casting"]).leader.reasons_for

    assert reason.words.startswith(
        "mark “MFT 31”, read against “MFT 31” on another piece: 20 times likelier "
        "for a class E journal box than for a class E"
    )


@pytest.mark.parametrize(
    ("mark", "remark"),
    [
        ("???", "Mark “???”: No character is legible, so the mark says nothing."),
        ("QX 9", "Mark “QX 9”: no mark in the catalog is like it."),
    ],
)
def test_a_mark_that_says_nothing_is_answered_in_words(corner, mark, remark):
    PartMarkFactory(part=corner.parts["casting"], text=mark)

    assert what_it_may_be(corner.parts["casting"]).remarks == (remark,)


def test_what_came_off_a_position_is_most_likely_what_belongs_there(corner):
    position = corner.vehicle_class.positions.get(code="A1")
    RemovalFactory(part=corner.parts["casting"], vehicle=corner.vehicle, position=position)

    found = what_it_may_be(corner.parts["casting"])

    assert (found.leader.name, found.leader.basis) == ("class E wheelset", "original")


def test_pieces_of_one_donation_speak_for_their_class(corner):
    other = VehicleClassFactory(designation="Class F")
    other.positions.create(code="A1", component=corner.components["wheelset"])
    accession = AccessionFactory()
    corner.part("known", "wheelset", vehicle_class=other, accession=accession)
    corner.parts["casting"].accession = accession

    found = chances(what_it_may_be(corner.parts["casting"]))

    # Twice the places speak for class E, and three times the company for class F.
    assert found["class F wheelset"] / found["class E wheelset"] == pytest.approx(1.5)


def test_an_identified_part_is_asked_only_for_what_it_can_be_measured_at(corner):
    corner.part("box", "journal box")

    asked = {one.name for one in what_it_may_be(corner.parts["box"]).next}

    assert asked <= {"axle hole", "flange width"}


def test_queries_do_not_grow_with_components(corner):
    corner.measure("casting", "bore", "64.1")
    what_it_may_be(corner.parts["casting"])
    with CaptureQueriesContext(connection) as few:
        what_it_may_be(corner.parts["casting"])

    for number in range(5):
        kind = VehicleClassFactory(designation=f"Class {number}")
        kind.positions.create(code="A1", component=corner.components["wheelset"])
    with CaptureQueriesContext(connection) as many:
        what_it_may_be(corner.parts["casting"])

    assert len(few) == len(many)
