"""Pictures to hold a part's photos against."""

import pytest

from catalog.models import Drawing, PatentFigure, PositionSpot
from catalog.queries.comparison import comparison_of
from tests.corner import lay_out_corner
from tests.factories import PatentFactory, PhotoFactory

pytestmark = pytest.mark.django_db


def test_pictures_are_gathered_in_groups_and_the_part_itself_apart():
    corner = lay_out_corner()
    brass = corner.components["bearing brass"]
    own = PhotoFactory(part=corner.part("brass", "bearing brass"))
    other = PhotoFactory(part=corner.part("another", "bearing brass"), caption="its back")
    pictured = PhotoFactory(part=None, component=brass)
    picture = PhotoFactory(part=None, vehicle_class=corner.vehicle_class)
    drawing = Drawing.objects.create(
        vehicle_class=corner.vehicle_class, title="Side", picture=picture
    )
    position = corner.vehicle_class.positions.filter(component=brass).first()
    PositionSpot.objects.create(position=position, drawing=drawing, x=0.5, y=0.5)
    patent = PatentFactory(number="4117")
    figure = PatentFigure.objects.create(
        patent=patent, label="Fig. 1", picture=PhotoFactory(part=None, patent=patent)
    )
    figure.characters.create(character="7", component=brass, x=0.1, y=0.1)

    found = comparison_of(corner.parts["brass"], brass)

    assert found.own == (own,)
    assert {name: [one.photo for one in rows] for name, rows in found.groups} == {
        "Other parts identified as bearing brass": [other],
        "Pictures of the bearing brass": [pictured],
        "Drawings on which it stands": [picture],
        "Patent figures": [figure.picture],
    }


def test_without_a_component_there_is_nothing_to_hold_it_against():
    part = lay_out_corner().part("casting", None)

    assert comparison_of(part, None).groups == ()
