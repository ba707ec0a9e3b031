"""Locations: a tree without loops, whose paths follow every change."""

import pytest
from django.core.exceptions import ValidationError
from django.utils import timezone

from catalog.models import Location, SearchEntry
from catalog.operations.places import change_location, record_location
from catalog.operations.record import latest_version, restore_version, withdraw
from catalog.operations.tags import tag_for
from tests.factories import LocationFactory, PartFactory

pytestmark = pytest.mark.django_db

TAG = "K7Q-2M9V"


@pytest.fixture
def shop(member):
    return record_location({"name": "Wagon shop", "kind": "building"}, by=member)


@pytest.fixture
def rack(member, shop):
    return record_location({"name": "Rack A", "kind": "rack", "parent": shop}, by=member)


@pytest.fixture
def shelf(member, rack):
    return record_location({"name": " Shelf  2 ", "parent": rack}, by=member)


def fresh(location):
    return Location.objects.get(pk=location.pk)


def test_path_and_lineage_go_from_the_site_down(shop, rack, shelf):
    assert shelf.path == "Wagon shop › Rack A › Shelf 2"
    assert fresh(shelf).lineage == f"/{shop.pk}/{rack.pk}/{shelf.pk}/"
    assert shelf.depth == 2


def test_paths_of_all_below_follow_a_new_name(member, shop, shelf):
    change_location(shop, {"name": "Old shop"}, by=member)

    assert fresh(shelf).path == "Old shop › Rack A › Shelf 2"
    assert SearchEntry.objects.get(kind="location", object_id=shelf.pk).title == fresh(shelf).path


def test_lineages_of_all_below_follow_a_new_parent(member, rack, shelf):
    store = record_location({"name": "Store"}, by=member)

    change_location(rack, {"parent": store}, by=member)

    assert fresh(shelf).path == "Store › Rack A › Shelf 2"
    assert fresh(shelf).lineage == f"/{store.pk}/{rack.pk}/{shelf.pk}/"


def test_former_version_brings_the_paths_back(member, shop, shelf):
    version = shop.history.latest().pk
    change_location(shop, {"name": "Old shop"}, by=member)

    restore_version(shop, version, by=member)

    assert fresh(shelf).path == "Wagon shop › Rack A › Shelf 2"


def test_location_inside_what_it_contains_is_refused(member, shop, shelf):
    with pytest.raises(ValidationError) as refusal:
        change_location(shop, {"parent": shelf}, by=member)

    assert refusal.value.message_dict == {
        "parent": ["Shelf 2 is itself inside Wagon shop: not both ways round."]
    }
    assert fresh(shop).parent is None


def test_location_inside_itself_is_refused(member, shop):
    with pytest.raises(ValidationError, match="Wagon shop cannot be inside itself"):
        change_location(shop, {"parent": shop}, by=member)


def test_same_name_twice_in_one_place_is_refused(member, rack, shelf):
    with pytest.raises(ValidationError, match="already a location of this name there"):
        record_location({"name": "shelf 2", "parent": rack}, by=member)


def test_same_name_elsewhere_is_allowed(member, shop, shelf):
    assert record_location({"name": "Shelf 2", "parent": shop}, by=member).path.endswith("Shelf 2")


def test_tag_of_a_part_is_refused(member):
    PartFactory(tag=TAG)

    with pytest.raises(ValidationError, match=f"Tag {TAG} is tied to"):
        record_location({"name": "Box", "tag": TAG.lower()}, by=member)


def test_own_tag_may_stay(member):
    box = record_location({"name": "Box", "tag": TAG}, by=member)

    assert change_location(box, {"tag": TAG, "notes": "red"}, by=member).tag == TAG
    assert tag_for(box, TAG) == TAG


def test_withdrawn_parent_is_refused(member):
    gone = LocationFactory(name="Pit", withdrawn_at=timezone.now())

    with pytest.raises(ValidationError, match="Pit is withdrawn"):
        record_location({"name": "Box", "parent": gone}, by=member)


def test_too_deep_a_tree_is_refused(member):
    parent = None
    for number in range(13):
        parent = record_location({"name": f"Box {number}", "parent": parent}, by=member)

    with pytest.raises(ValidationError, match="too many places above"):
        record_location({"name": "Box in box", "parent": parent}, by=member)


def test_location_that_holds_something_is_not_withdrawn(curator, rack, shelf):
    PartFactory(location=shelf)

    for location in (rack, shelf):
        with pytest.raises(ValidationError, match="Something is still in there"):
            withdraw(location, by=curator, reason="taken down")


def test_an_earlier_version_that_would_make_a_loop_is_refused(curator):
    rack, box = LocationFactory(name="Rack"), LocationFactory(name="Box")
    change_location(rack, {"parent": box}, by=curator)
    inside_the_box = latest_version(rack)
    change_location(rack, {"parent": None}, by=curator)
    change_location(box, {"parent": rack}, by=curator)
    rack.refresh_from_db()

    with pytest.raises(ValidationError):
        restore_version(rack, inside_the_box, by=curator)

    rack.refresh_from_db()
    assert (rack.parent, rack.path) == (None, "Rack")
