"""The map of the shed: what is drawn, and where on it things are found."""

import pytest

from catalog.operations.searching import index_record
from catalog.queries.shed_maps import MOST_BOXES, shed_map
from tests.factories import FittingFactory, LocationFactory, PartFactory, VehicleFactory

pytestmark = pytest.mark.django_db


def place(name, kind, parent=None):
    path = f"{parent.path} › {name}" if parent else name
    return LocationFactory(name=name, kind=kind, parent=parent, path=path)


@pytest.fixture
def shop():
    return place("Shop", "building")


@pytest.fixture
def shelf(shop):
    return place("Shelf 1", "shelf", place("Rack B", "rack", shop))


def lines(drawn):
    return {" ".join(box.lines): box.note for box in drawn.plans["phone"].boxes}


def told(drawn):
    return [f"{one.part} is {one.words}" for one in drawn.found]


def marked(drawn):
    names = {branch.location.pk: branch.location.name for branch in drawn.branches}
    return {names[key]: mark.found for key, mark in drawn.marks.items() if mark.is_found}


def test_every_place_is_drawn_with_what_is_in_it_and_below(shop, shelf):
    PartFactory.create_batch(2, location=shelf)
    PartFactory(location=shop)
    VehicleFactory(home_location=shop)
    place("Yard", "outdoors")

    assert lines(shed_map()) == {
        "Shop": "1 vehicle, 3 parts",
        "Rack B": "2 parts",
        "Shelf 1": "2 parts",
        "Yard": "empty",
    }


def test_number_is_found_on_its_shelf_and_the_places_around_it_say_so(shop, shelf):
    PartFactory(number="2026.1.7", location=shelf)

    drawn = shed_map("2026.1.7")

    assert told(drawn) == ["2026.1.7 is at Shop › Rack B › Shelf 1"]
    assert marked(drawn) == {"Shelf 1": 1}
    assert drawn.marks[shop.pk].holds_found
    assert lines(drawn)["Rack B"] == "1 found, 1 part"


def test_words_find_every_piece_that_holds_them(shop, shelf):
    for number, where in ((1, shelf), (2, shelf), (3, shop)):
        index_record(
            PartFactory(description="sand valve", number=f"2026.1.{number}", location=where)
        )
    index_record(PartFactory(description="hinge", location=shop))

    assert marked(shed_map("sand")) == {"Shop": 3, "Shelf 1": 2}


def test_piece_in_a_piece_is_where_that_is(shelf):
    crate = PartFactory(number="2026.1.1", location=shelf)
    tin = PartFactory(number="2026.1.2", inside=crate)
    PartFactory(number="2026.1.3", inside=tin)

    drawn = shed_map("2026.1.3")

    assert told(drawn) == [
        "2026.1.3 is inside 2026.1.2, inside 2026.1.1, at Shop › Rack B › Shelf 1"
    ]
    assert marked(drawn) == {"Shelf 1": 1}


def test_fitted_piece_is_where_its_vehicle_is_at_home(shop):
    vehicle = VehicleFactory(label="Wagon 14", home_location=shop)
    fitting = FittingFactory(vehicle=vehicle, part__number="2026.1.1", position__code="L1")

    assert told(shed_map("2026.1.1")) == ["2026.1.1 is on Wagon 14, L1, at home at Shop"]
    vehicle.home_location = None
    vehicle.save()
    assert told(shed_map(str(fitting.part))) == [
        "2026.1.1 is on Wagon 14, L1, whose home is not recorded"
    ]


def test_piece_without_a_place_is_said_to_have_none(shop):
    PartFactory(number="2026.1.1")

    drawn = shed_map("2026.1.1")

    assert told(drawn) == ["2026.1.1 is at no place that is recorded"]
    assert marked(drawn) == {}


def test_place_is_found_by_its_name(shelf):
    drawn = shed_map("rack b")

    assert (drawn.places_found, marked(drawn)) == ((shelf.parent,), {"Rack B": 0})


def test_nothing_found_marks_nothing(shelf):
    drawn = shed_map("zzz")

    assert (drawn.found, drawn.places_found, marked(drawn)) == ((), (), {})


def test_one_place_can_be_drawn_alone(shop, shelf):
    place("Yard", "outdoors")

    assert list(lines(shed_map(inside=shelf.parent))) == ["Rack B", "Shelf 1"]


def test_withdrawn_places_and_parts_are_not_on_it(shop, shelf):
    PartFactory(number="2026.1.1", location=shop, withdrawn_at="2026-04-02T10:00:00Z")
    place("Old store", "building").__class__.objects.filter(name="Old store").update(
        withdrawn_at="2026-04-02T10:00:00Z"
    )

    drawn = shed_map("2026.1.1")

    assert "Old store" not in lines(drawn)
    assert (drawn.found, lines(drawn)["Shop"]) == ((), "empty")


def test_too_many_places_are_drawn_to_a_lesser_depth(shop):
    for number in range(MOST_BOXES):
        place(f"Box {number}", "box", shop)

    drawn = shed_map()

    assert (list(lines(drawn)), drawn.is_shallow) == (["Shop"], True)
    assert len(drawn.branches) == MOST_BOXES + 1
