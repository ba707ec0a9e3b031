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
        "Vehicles that have one": [PhotoFactory(part=None, vehicle=corner.vehicle)],
    }

    found = comparison_of(corner.parts["brass"], brass)

    assert found.own == (own,)
    assert {name: [one.photo for one in rows] for name, rows in found.groups} == expected


def test_drawing_is_shown_around_the_place_of_the_component_and_ringed():
    corner = lay_out_corner()
    brass = corner.components["bearing brass"]
    picture = drawn(corner, brass)
    picture.width, picture.height = 900, 600
    picture.save()

    [(_, [one])] = comparison_of(corner.part("brass", "bearing brass"), brass).groups

    # A third of the width, and three quarters of that, about the spot in the middle.
    assert one.view == "300 188 300 225"
    assert one.rings == (("450", "300", "30"),)


def test_patent_figure_is_shown_whole_with_its_character_ringed():
    corner = lay_out_corner()
    brass = corner.components["bearing brass"]
    picture = patented(brass)
    picture.width, picture.height = 1000, 800
    picture.save()

    [(_, [one])] = comparison_of(corner.part("brass", "bearing brass"), brass).groups

    assert one.view == "0 0 1000 800"
    assert one.rings == (("100", "80", "40"),)


def test_without_a_component_there_is_nothing_to_hold_it_against():
    part = lay_out_corner().part("casting", None)

    assert comparison_of(part, None).groups == ()
