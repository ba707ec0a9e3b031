"""Stock-takes on the screen and on paper."""

from io import BytesIO

import pytest
from django.urls import reverse
from pypdf import PdfReader

from catalog.models import Move, StockTake
from catalog.operations.photos import add_photo
from catalog.operations.stock_takes import take_stock
from tests.factories import LocationFactory, PartFactory
from tests.samples import picture

pytestmark = pytest.mark.django_db


@pytest.fixture
def shelf(db):
    return LocationFactory(name="Shelf 2")


def test_comparing_shows_what_was_found(signed_in, shelf):
    PartFactory(location=shelf, number="2026.1.1")
    PartFactory(number="2026.1.2")

    typed = {"pieces": "2026.1.2\n\n2026.1.3\n"}
    answer = signed_in.post(reverse("stock-take", args=[shelf.pk]), typed, follow=True)

    page = answer.content.decode()
    assert answer.redirect_chain[0][0] == StockTake.objects.get().get_absolute_url()
    assert "0 here as recorded, 1 missing, 1 unexpected, 1 unknown" in page
    assert "Move it here in the record" in page


def test_unexpected_parts_are_moved_with_a_way_back(signed_in, member, shelf):
    yard = LocationFactory(name="Yard")
    stray = PartFactory(location=yard)
    taken = take_stock(shelf, [stray.number], by=member)

    page = signed_in.post(reverse("stock-take-move", args=[taken.pk]), follow=True)

    stray.refresh_from_db()
    assert stray.location == shelf
    assert f'name="move" value="{Move.objects.get().pk}"' in page.content.decode()
    signed_in.post(reverse("move-undo"), {"move": Move.objects.get().pk})
    stray.refresh_from_db()
    assert stray.location == yard


def test_earlier_stock_takes_are_read_later(signed_in, member, shelf):
    taken = take_stock(shelf, [PartFactory().number], by=member)

    page = signed_in.get(reverse("stock-take", args=[shelf.pk])).content.decode()

    assert taken.get_absolute_url() in page
    assert "0 here, 0 missing, 1 unexpected, 0 unknown" in page


def test_refusal_keeps_the_page(signed_in, shelf):
    page = signed_in.post(reverse("stock-take", args=[shelf.pk]), {"pieces": ""})

    assert page.context["form"].errors == {
        "pieces": ["Nothing is recorded here and nothing was scanned."]
    }


def test_sheet_lists_parts_with_their_photos_as_jpeg(signed_in, member, shelf):
    part = PartFactory(location=shelf, number="2026.1.1", description="bent strap")
    add_photo(picture(size=(400, 300)), by=member, part=part)
    PartFactory(location=LocationFactory(parent=shelf, name="Box 3"), number="2026.1.2")

    answer = signed_in.get(reverse("stock-take-sheet", args=[shelf.pk]))

    page = PdfReader(BytesIO(answer.content)).pages[0]
    text = page.extract_text()
    assert all(words in text for words in ("2026.1.1", "bent strap", "2026.1.2", "Box 3"))
    assert [image.name.rpartition(".")[2] for image in page.images] == ["jpg"]


@pytest.mark.parametrize(("paper", "width"), [("", 595), ("letter", 612)])
def test_sheet_is_on_the_paper_asked_for(signed_in, shelf, paper, width):
    answer = signed_in.get(reverse("stock-take-sheet", args=[shelf.pk]), {"paper": paper})

    pages = PdfReader(BytesIO(answer.content)).pages
    assert [round(page.mediabox.width) for page in pages] == [width] * len(pages)


def test_visitor_takes_no_stock(as_visitor, member, shelf):
    taken = take_stock(shelf, [PartFactory().number], by=member)
    for name, pk in (("stock-take", shelf.pk), ("stock-take-sheet", shelf.pk)):
        assert as_visitor.get(reverse(name, args=[pk])).status_code == 403
    assert as_visitor.get(taken.get_absolute_url()).status_code == 403


def test_pages_take_the_same_queries_for_one_and_three(signed_in, member, shelf, count_queries):
    form = reverse("stock-take", args=[shelf.pk])

    def count(size):
        here = PartFactory.create_batch(size, location=shelf)
        strays = PartFactory.create_batch(size, location=LocationFactory())
        held = PartFactory.create_batch(size, inside=PartFactory(inside=here[0]))
        lines = [part.number for part in (*here[1:], *strays, *held)]
        taken = take_stock(shelf, [*lines, *("nothing " * size).split()], by=member)
        return [count_queries(signed_in, page) for page in (form, taken.get_absolute_url())]

    assert count(1) == count(3)
