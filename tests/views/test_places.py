"""Locations on the screen."""

import pytest
from django.urls import reverse

from catalog.models import Location
from catalog.operations.moves import move_part
from tests.factories import LocationFactory, PartFactory, PhotoFactory, VehicleFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def shelf():
    return LocationFactory(name="Shelf 2", parent=LocationFactory(name="Shop"))


def fill(location):
    crate = PartFactory(location=location)
    PartFactory(inside=crate)
    PhotoFactory(part=crate, is_main=True)
    LocationFactory(parent=location)
    VehicleFactory(home_location=location)


def test_location_is_added_in_the_place_it_was_asked_from(signed_in, shelf):
    address = f"{reverse('location-add')}?in={shelf.pk}"
    assert f'<option value="{shelf.pk}" selected>' in signed_in.get(address).content.decode()

    typed = {"name": "Box 1", "kind": "box", "parent": shelf.pk}
    answer = signed_in.post(reverse("location-add"), typed)

    box = Location.objects.get(name="Box 1")
    assert answer.headers["Location"] == box.get_absolute_url()
    assert box.parent == shelf


def test_loop_is_refused_beside_the_field(signed_in, shelf):
    typed = {"name": "Shop", "kind": "building", "parent": shelf.pk, "notes": "cold"}

    page = signed_in.post(reverse("location-change", args=[shelf.parent.pk]), typed)

    assert "Shelf 2 is itself inside Shop: not both ways round." in page.content.decode()
    assert "cold" in page.content.decode()
    assert Location.objects.get(name="Shop").parent is None


def test_name_twice_in_one_place_is_refused_in_words(signed_in, shelf):
    typed = {"name": "shelf 2", "kind": "shelf", "parent": shelf.parent.pk}

    page = signed_in.post(reverse("location-add"), typed).content.decode()

    assert "There is already a location of this name there." in page


def test_detail_shows_parts_with_what_they_hold(signed_in, shelf):
    crate = PartFactory(location=shelf, number="2026.1.1")
    PartFactory(inside=crate, number="2026.1.2", description="bolts")

    page = signed_in.get(shelf.get_absolute_url()).content.decode()

    assert "2026.1.1" in page
    assert "2026.1.2</a> bolts" in page


@pytest.mark.parametrize("name", ["location-list", "location-add", "move"])
def test_visitor_sees_no_locations(as_visitor, shelf, name):
    for address in (reverse(name), shelf.get_absolute_url()):
        answer = as_visitor.get(address)
        assert answer.status_code == 403
        assert b"Shelf 2" not in answer.content


def test_nobody_signed_in_sees_no_locations(client, shelf):
    assert client.get(shelf.get_absolute_url()).status_code == 302


def test_tree_takes_the_same_queries_for_one_and_three(signed_in, count_queries, shelf):
    fill(shelf)
    one = count_queries(signed_in, reverse("location-list"))
    fill(shelf)
    fill(LocationFactory())

    assert count_queries(signed_in, reverse("location-list")) == one


def test_detail_takes_the_same_queries_for_one_and_three(signed_in, count_queries, shelf, member):
    fill(shelf)
    one = count_queries(signed_in, shelf.get_absolute_url())
    fill(shelf)
    fill(shelf)
    move_part(PartFactory(), location=shelf, by=member)

    assert count_queries(signed_in, shelf.get_absolute_url()) == one
