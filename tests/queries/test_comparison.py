"""Pictures to hold a part's photos against."""

import pytest

from catalog.models import Drawing, PatentFigure, PositionSpot
from catalog.queries.comparison import comparison_of
from tests.corner import lay_out_corner
from tests.factories import PatentFactory, PhotoFactory

pytestmark = pytest.mark.django_db


def drawn(corner, component):
    """Return the picture of a drawing on which the component has its spot."""
    kind = corner.vehicle_class
    picture = PhotoFactory(part=None, vehicle_class=kind)
    drawing = Drawing.objects.create(vehicle_class=kind, title="Side", picture=picture)
    position = kind.positions.filter(component=component).first()
    PositionSpot.objects.create(position=position, drawing=drawing, x=0.5, y=0.5)
    return picture


def patented(component):
    """Return the picture of a patent figure whose reference character names the component."""
    patent = PatentFactory(number="4117")
    picture = PhotoFactory(part=None, patent=patent)
    figure = PatentFigure.objects.create(patent=patent, label="Fig. 1", picture=picture)
    figure.characters.create(character="7", component=component, x=0.1, y=0.1)
    return picture


def test_pictures_are_gathered_in_groups_and_the_part_itself_apart():
    corner = lay_out_corner()
    brass = corner.components["bearing brass"]
    own = PhotoFactory(part=corner.part("brass", "bearing brass"))
    expected = {
        "Other parts identified as bearing brass": [
            PhotoFactory(part=corner.part("another", "bearing brass"))
        ],
        "Pictures of the bearing brass": [PhotoFactory(part=None, component=brass)],
        "Drawings on which it stands": [drawn(corner, brass)],
        "Patent figures": [patented(brass)],
    }

    found = comparison_of(corner.parts["brass"], brass)

    assert found.own == (own,)
    assert {name: [one.photo for one in rows] for name, rows in found.groups} == expected


def test_without_a_component_there_is_nothing_to_hold_it_against():
    part = lay_out_corner().part("casting", None)

    assert comparison_of(part, None).groups == ()
