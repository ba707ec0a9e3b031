"""The map of the shed on the screen."""

import re

import pytest
from django.urls import reverse

from catalog.operations.searching import index_record
from tests.factories import LocationFactory, PartFactory, VehicleFactory

pytestmark = pytest.mark.django_db

PAGE = reverse("shed-map")


@pytest.fixture
def shelf():
    shop = LocationFactory(name="Shop", kind="building")
    rack = LocationFactory(name="Rack B", kind="rack", parent=shop, path="Shop › Rack B")
    return LocationFactory(name="Shelf 1", parent=rack, path="Shop › Rack B › Shelf 1")


def test_each_place_leads_to_its_page_from_drawing_and_table(signed_in, shelf):
    page = signed_in.get(PAGE).content.decode()

    drawings, rest = re.findall(r"<svg class=\"shed-plan.*?</svg></svg>", page), page
    assert len(drawings) == 2
    for place in (shelf, shelf.parent, shelf.parent.parent):
        address = place.get_absolute_url()
        assert rest.count(f'href="{address}"') == 3
        assert all(f'<a href="{address}" tabindex="-1">' in drawing for drawing in drawings)


def test_found_piece_is_told_in_words_drawing_and_table(signed_in, shelf):
    PartFactory(number="2026.1.7", description="brass", location=shelf)

    page = signed_in.get(PAGE, {"words": "2026.1.7"}).content.decode()

    assert "2026.1.7</a> brass is at Shop › Rack B › Shelf 1." in page
    assert page.count("is-found") == page.count("shed-pointer") == 2
    assert "Shelf 1</a> <strong>found here</strong>" in page


def test_nothing_found_is_said(signed_in, shelf):
    page = signed_in.get(PAGE, {"words": "zzz"}).content.decode()

    assert "No part and no place holds these words." in page
    assert "is-found" not in page


def test_names_of_places_are_no_markup(signed_in):
    LocationFactory(name="<b>Rack</b> & co", kind="rack")

    page = signed_in.get(PAGE, {"words": "<b>"}).content.decode()

    assert "<b>" not in page
    assert page.count("&lt;b&gt;Rack&lt;/b&gt; &amp; co") >= 3


def test_one_place_is_drawn_alone(signed_in, shelf):
    yard = LocationFactory(name="Yard", kind="outdoors")

    page = signed_in.get(PAGE, {"in": shelf.parent.pk}).content.decode()

    assert shelf.get_absolute_url() in page
    assert yard.get_absolute_url() not in page
    assert signed_in.get(PAGE, {"in": "999999"}).status_code == 404
    assert signed_in.get(PAGE, {"in": "x"}).status_code == 200


def test_empty_shed_says_where_to_begin(signed_in):
    assert "No location is recorded yet." in signed_in.get(PAGE).content.decode()


@pytest.mark.parametrize("who", ["client", "as_visitor"])
def test_visitors_see_no_map(request, who, shelf):
    answer = request.getfixturevalue(who).get(PAGE, {"words": "Shelf 1"})

    assert answer.status_code in (302, 403)
    assert b"Rack B" not in answer.content


def test_part_and_place_lead_to_it(signed_in, shelf):
    part = PartFactory(number="2026.1.7", location=shelf)

    assert f"{PAGE}?words=2026.1.7" in signed_in.get(part.get_absolute_url()).content.decode()
    assert f"{PAGE}?in={shelf.pk}" in signed_in.get(shelf.get_absolute_url()).content.decode()


def test_map_takes_the_same_queries_for_one_and_three(signed_in, count_queries, shelf):
    def grow():
        PartFactory(location=LocationFactory(parent=shelf), description="valve")
        PartFactory(inside=PartFactory(location=shelf))
        VehicleFactory(home_location=shelf)

    grow()
    one = count_queries(signed_in, f"{PAGE}?words=valve")
    grow()
    grow()

    assert count_queries(signed_in, f"{PAGE}?words=valve") == one


def test_many_found_pieces_do_not_push_the_map_out_of_sight(signed_in, shelf):
    for number in range(1, 7):
        part = PartFactory(number=f"2026.1.{number}", description="sand valve", location=shelf)
        index_record(part)

    page = signed_in.get(PAGE, {"words": "sand"}).content.decode()

    assert "2 more, marked on the map too" in page
    assert page.count("sand valve is at Shop › Rack B › Shelf 1.") == 6
    assert "6 found, 6 parts" in page
