"""Surviving examples elsewhere, and what to measure when somebody goes there."""

from io import BytesIO

import pytest
from django.urls import reverse
from pypdf import PdfReader

from catalog.models import Citation
from catalog.operations.photos import add_photo
from catalog.queries.survivors import open_questions
from tests.factories import (
    CharacteristicFactory,
    CitationFactory,
    PartyFactory,
    SourceFactory,
)
from tests.printing.reading import text_of
from tests.samples import picture
from tests.tramway import lay_out_class

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop(db):
    return lay_out_class()


@pytest.fixture
def survivor(shop):
    holder = PartyFactory(name="Ada Skarn", email="sentinel@skarn.example", phone="sentinel 42")
    source = SourceFactory(
        kind="survivor", title="Wagon at the mill", holder=holder, original_place="Skarn"
    )
    CitationFactory(event=None, vehicle_class=shop.vehicle_class, source=source)
    return source


def words_of(client, address):
    answer = client.get(address)
    assert answer.status_code == 200
    return answer.content.decode()


def asked(shop):
    return {
        (one.component, one.characteristic): one.why for one in open_questions(shop.vehicle_class)
    }


def test_open_questions_are_what_nobody_has_stated_or_sourced(shop):
    CharacteristicFactory(component=shop.components["hinge"], name="length")
    shop.limits("drawhead", "shank", lower_mm="63.5")
    shop.limits("journal box", "bore", lower_mm="63.5")
    bore = shop.components["journal box"].characteristics.get().specifications.get()
    CitationFactory(event=None, specification=bore, source=SourceFactory())

    assert asked(shop) == {
        ("hinge", "length"): "not known yet",
        ("drawhead", "shank"): "no source stands behind what is recorded",
    }


def test_component_without_characteristics_asks_for_a_sketch(shop):
    question = next(one for one in open_questions(shop.vehicle_class) if one.component == "hinge")

    assert (question.characteristic, question.codes) == ("shape and main dimensions", ("HL", "HR"))


def test_list_names_class_and_holder_and_no_contact(signed_in, survivor):
    SourceFactory(kind="book", title="A book")

    words = words_of(signed_in, reverse("survivor-list"))

    assert ("Class E" in words, "Ada Skarn" in words, "A book" in words) == (True, True, False)
    assert "sentinel" not in words


def test_page_lists_what_to_measure(signed_in, survivor):
    words = words_of(signed_in, reverse("survivor-detail", args=[survivor.pk]))

    assert "shape and main dimensions" in words
    assert "sentinel" not in words


@pytest.fixture
def drawn(shop, curator):
    hinge = shop.components["hinge"]
    drawing = add_photo(picture(size=(640, 480)), by=curator, component=hinge, role="drawing")
    for name in ("length", "hole pitch"):
        CharacteristicFactory(component=hinge, name=name, picture=drawing)
    return drawing


def test_page_shows_each_picture_of_where_to_measure_once(signed_in, survivor, drawn):
    words = words_of(signed_in, reverse("survivor-detail", args=[survivor.pk]))

    assert words.count('measure: hinge, hole pitch; hinge, length"') == 1
    assert words.count(drawn.url_960) == 1


def test_printed_list_shows_where_to_measure(signed_in, survivor, drawn):
    pdf = signed_in.get(reverse("survivor-print", args=[survivor.pk])).content

    pages = PdfReader(BytesIO(pdf)).pages
    assert [(image.image.width, image.image.height) for page in pages for image in page.images] == [
        (640, 480)
    ]
    assert "hinge, hole pitch; hinge, length" in text_of(PdfReader(BytesIO(pdf)))


def test_printed_list_carries_no_contact(signed_in, survivor):
    pdf = signed_in.get(reverse("survivor-print", args=[survivor.pk])).content

    words = text_of(PdfReader(BytesIO(pdf)))
    assert ("HL, HR" in words, "Found, with its unit" in words) == (True, True)
    assert "sentinel" not in words


def test_member_says_of_which_class_it_is_an_example(signed_in, shop):
    source = SourceFactory(kind="survivor", title="Wagon at the mill")
    address = reverse("survivor-class", args=[source.pk])

    signed_in.post(address, {"vehicle_class": shop.vehicle_class.pk})

    assert Citation.objects.get().vehicle_class == shop.vehicle_class
    assert signed_in.post(address, {"vehicle_class": "x"}).status_code == 404


def test_what_is_no_survivor_has_no_such_page(signed_in):
    source = SourceFactory(kind="book", title="A book")

    assert signed_in.get(reverse("survivor-detail", args=[source.pk])).status_code == 404


def test_visitor_is_refused(as_visitor, survivor):
    for name in ("survivor-detail", "survivor-print"):
        assert as_visitor.get(reverse(name, args=[survivor.pk])).status_code == 403
    assert as_visitor.get(reverse("survivor-list")).status_code == 403


def test_empty_list_says_what_a_survivor_is(signed_in):
    assert "No survivor is recorded yet." in words_of(signed_in, reverse("survivor-list"))


def test_list_takes_the_same_queries_for_one_and_three(signed_in, survivor, count_queries, shop):
    one = count_queries(signed_in, reverse("survivor-list"))
    for title in ("Second", "Third"):
        source = SourceFactory(kind="survivor", title=title, holder=survivor.holder)
        CitationFactory(event=None, vehicle_class=shop.vehicle_class, source=source)

    assert count_queries(signed_in, reverse("survivor-list")) == one
