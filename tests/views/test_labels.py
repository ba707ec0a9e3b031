"""Printing tags and labels: codes that lead to the catalog, and sheets begun where one stopped."""

import pytest
import zxingcpp
from django.urls import reverse

from catalog.models import PrintedTag
from tests.factories import LocationFactory, PartFactory
from tests.printing.pages import pictures_of, words_of

pytestmark = pytest.mark.django_db
TYPED = {"stock": "a4-70x37", "start": 1, "right_mm": 0, "down_mm": 0}


def read_back(answer):
    picture = pictures_of(answer.content, 150)[0]
    return {code.text for code in zxingcpp.read_barcodes(picture)}


def test_tags_are_printed_with_the_addresses_of_fresh_codes(signed_in, settings):
    settings.SITE_ADDRESS = "https://catalog.example.org/"

    answer = signed_in.post(reverse("tag-sheets"), {**TYPED, "count": 5})

    codes = PrintedTag.objects.values_list("code", flat=True)
    assert answer.headers["Content-Type"] == "application/pdf"
    assert set(codes) <= {word.text for word in words_of(answer.content)}
    assert read_back(answer) == {
        f"https://catalog.example.org/t/{code.replace('-', '')}" for code in codes
    }


def test_printed_address_opens_taking_in_with_the_code_filled_in(signed_in):
    answer = signed_in.get("/t/K7Q2M9V")

    assert answer.headers["Location"] == "/take-in/?tag=K7Q-2M9V"


def test_printed_address_of_a_used_tag_opens_its_part(signed_in):
    part = PartFactory(tag="K7Q-2M9V")

    assert signed_in.get("/t/K7Q2M9V").headers["Location"] == part.get_absolute_url()


def test_next_printing_begins_where_the_last_one_ended(signed_in):
    typed = {**TYPED, "start": 20, "count": 8, "right_mm": "0.5"}
    signed_in.post(reverse("tag-sheets"), typed)

    form = signed_in.get(reverse("tag-sheets")).context["form"]

    assert (form["start"].value(), form["right_mm"].value()) == (4, 0.5)


@pytest.mark.parametrize(
    ("typed", "field", "words"),
    [
        ({"start": 25}, "start", "There are 24 labels on a page."),
        ({"count": 0}, "count", "Ensure this value is greater than or equal to 1."),
        (
            {"stock": "none"},
            "stock",
            "Select a valid choice. none is not one of the available choices.",
        ),
    ],
)
def test_what_cannot_be_printed_is_refused_and_uses_no_code(signed_in, typed, field, words):
    page = signed_in.post(reverse("tag-sheets"), {**TYPED, "count": 3, **typed})

    assert page.context["form"].errors == {field: [words]}
    assert not PrintedTag.objects.exists()


def test_address_too_long_for_a_label_is_refused_and_uses_no_code(signed_in, settings):
    settings.SITE_ADDRESS = "https://catalog.example.org/" + "shed/" * 10

    page = signed_in.post(reverse("tag-sheets"), {**TYPED, "stock": "letter-66x25", "count": 3})

    assert "phones need 0.5 mm" in page.context["form"].errors["stock"][0]
    assert not PrintedTag.objects.exists()


def test_address_that_leads_nowhere_is_told_before_printing(signed_in, settings):
    assert signed_in.get(reverse("tag-sheets")).context["leads_nowhere"]

    settings.SITE_ADDRESS = "https://catalog.example.org"

    page = signed_in.get(reverse("tag-sheets"))
    assert not page.context["leads_nowhere"]
    assert "https://catalog.example.org/t/" in page.content.decode()


def test_location_labels_cover_every_place_inside_and_give_them_tags(signed_in):
    rack = LocationFactory(name="Long rack")
    shelf = LocationFactory(name="Shelf 2", parent=rack, path="Long rack › Shelf 2")
    LocationFactory(name="Yard")

    answer = signed_in.post(reverse("location-labels", args=[rack.pk]), {**TYPED, "below": "on"})

    rack.refresh_from_db()
    shelf.refresh_from_db()
    told = {word.text for word in words_of(answer.content)}
    assert {rack.tag, shelf.tag, "rack", "Shelf"} <= told
    assert len(read_back(answer)) == 2
    assert "Yard" not in told


def test_location_label_of_one_place_leaves_the_others_alone(signed_in):
    rack = LocationFactory(tag="K7Q-2M9V")
    shelf = LocationFactory(parent=rack)

    answer = signed_in.post(reverse("location-labels", args=[rack.pk]), TYPED)

    shelf.refresh_from_db()
    assert shelf.tag is None
    assert read_back(answer) == {"http://testserver/t/K7Q2M9V"}


def test_proof_uses_no_code(signed_in):
    answer = signed_in.post(reverse("label-proof"), TYPED)

    assert answer.headers["Content-Type"] == "application/pdf"
    assert "50" not in {word.text for word in words_of(answer.content)}
    assert not PrintedTag.objects.exists()


def test_visitor_prints_nothing(as_visitor):
    location = LocationFactory()
    for address in (reverse("tag-sheets"), reverse("location-labels", args=[location.pk])):
        assert as_visitor.get(address).status_code == 403


def test_pages_take_the_same_queries_for_one_and_three(signed_in, count_queries):
    location = LocationFactory()
    pages = (reverse("tag-sheets"), reverse("location-labels", args=[location.pk]))
    signed_in.post(pages[0], {**TYPED, "count": 1})
    one = [count_queries(signed_in, page) for page in pages]
    LocationFactory.create_batch(2, parent=location)
    for _ in range(2):
        signed_in.post(pages[0], {**TYPED, "count": 1})

    assert [count_queries(signed_in, page) for page in pages] == one
