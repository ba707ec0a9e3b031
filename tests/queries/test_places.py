"""The tree of locations, and finding places and parts by what people type or scan."""

import pytest
from django.utils import timezone

from catalog.queries.places import (
    find_location,
    find_part,
    find_parts,
    in_walking_order,
    location_tree,
    parts_below,
    places_above,
    where_in_words,
)
from tests.factories import FittingFactory, LocationFactory, PartFactory, VehicleFactory

pytestmark = pytest.mark.django_db

TAG = "K7Q-2M9V"


@pytest.fixture
def shop():
    return LocationFactory(name="Shop", tag=TAG)


@pytest.fixture
def shelf(shop):
    return LocationFactory(name="Shelf 2", parent=shop, path="Shop › Shelf 2")


def test_tree_counts_what_is_here_and_below(shop, shelf):
    PartFactory(location=shop)
    PartFactory.create_batch(2, location=shelf)
    PartFactory(location=shelf, withdrawn_at=timezone.now())
    VehicleFactory(home_location=shop)

    told = [
        (branch.location, branch.depth, branch.here, branch.everything, branch.vehicles)
        for branch in location_tree()
    ]
    assert told == [(shop, 0, 1, 3, 1), (shelf, 1, 2, 2, 0)]


def test_tree_is_walked_in_numerical_order(shop, shelf):
    LocationFactory(name="Shelf 10", parent=shop, path="Shop › Shelf 10")
    LocationFactory(name="Box", parent=shelf, path="Shop › Shelf 2 › Box")
    LocationFactory(name="Shop B", path="Shop B")

    names = [branch.location.name for branch in location_tree()]

    assert names == ["Shop", "Shelf 2", "Box", "Shelf 10", "Shop B"]


def test_walking_order_compares_numbers_and_words_side_by_side():
    paths = ["Shop › 2", "Shop › A", "Shop › 10", "Shop"]

    assert sorted(paths, key=in_walking_order)[0] == "Shop"
    assert sorted(paths, key=in_walking_order).index("Shop › 2") < sorted(
        paths, key=in_walking_order
    ).index("Shop › 10")


def test_parts_below_hold_the_whole_subtree(shop, shelf):
    here, below = PartFactory(location=shop), PartFactory(location=shelf)
    PartFactory(location=LocationFactory())

    assert list(parts_below(shop)) == [here, below]
    assert list(parts_below(shelf)) == [below]


def test_places_above_go_from_the_site_down(shop, shelf):
    box = LocationFactory(name="Box", parent=shelf)

    assert places_above(box) == [shop, shelf]


@pytest.mark.parametrize(
    "words",
    ["k7q2m9v", "https://shed.example/t/K7Q-2M9V/", "shop"],
)
def test_location_is_found_by_tag_or_name(shop, shelf, words):
    assert find_location(words) == shop


@pytest.mark.parametrize("words", ["Shop › Shelf 2", "shop > shelf 2", "SHELF 2"])
def test_location_is_found_by_path(shelf, words):
    assert find_location(words) == shelf


def test_name_of_two_locations_finds_neither(shelf):
    LocationFactory(name="Shelf 2", path="Store › Shelf 2")

    assert find_location("Shelf 2") is None


def test_part_is_found_by_number_or_tag(shop):
    part = PartFactory(number="2026.4.17a", tag="999-999J")

    assert find_part(" 2026.4.17A ") == part
    assert find_part("2026.4.1") is None
    assert find_part(TAG) is None


def test_lines_that_name_no_part_are_told():
    part = PartFactory(number="2026.4.17")
    PartFactory(number="2026.4.18", withdrawn_at=timezone.now())

    found, unknown = find_parts(["2026.4.17", "", "2026.4.17", " 2026.4.18 ", "the red one"])

    assert found == [part]
    assert unknown == ["2026.4.18", "the red one"]


def test_where_a_part_is_is_said_in_words():
    shelf = LocationFactory(name="Shelf 1")
    fitting = FittingFactory(state="fitted")
    crate = PartFactory(number="2026.1.1")
    parts = [
        PartFactory(location=shelf),
        PartFactory(inside=crate),
        fitting.part,
        PartFactory(),
    ]

    assert [where_in_words(part) for part in parts] == [
        str(shelf),
        "inside 2026.1.1",
        f"on {fitting.vehicle}, {fitting.position}",
        "not recorded",
    ]
