"""Pages of the list of parts, counted as far as it tells anybody anything."""

import pytest
from django.urls import reverse

from catalog.models import Fitting, Part
from catalog.operations.parts import record_part
from catalog.queries import part_lists
from catalog.queries.addresses import addresses
from catalog.queries.part_lists import part_page, part_rows
from catalog.queries.remembered import remembered
from tests.factories import FittingFactory, PartFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def short(monkeypatch):
    """Make pages and counts short, so that a few parts are many."""
    monkeypatch.setattr(part_lists, "PAGE_LENGTH", 2)
    monkeypatch.setattr(part_lists, "COUNTED_BY_CHOICE", 1)
    monkeypatch.setattr(part_lists, "COUNTED_BY_WORDS", 3)
    monkeypatch.setattr(part_lists, "COUNTED", 4)


def numbers(page):
    return [row.label for row in page.rows]


def walk(**options):
    """Return the pages from the first to the last, as somebody leafs through them."""
    pages = [part_page(Part.objects.kept(), **options)]
    while pages[-1].has_next:
        following = pages[-1].next_number
        pages.append(part_page(Part.objects.kept(), number=following, **options))
    return pages


@pytest.mark.parametrize(("is_narrowed", "told"), [(True, (4, False)), (False, (7, True))])
def test_leafing_through_meets_every_part_once(short, is_narrowed, told):
    parts = PartFactory.create_batch(7)

    pages = walk(is_narrowed=is_narrowed)

    met = [label for page in pages for label in numbers(page)]
    assert met == [part.number for part in parts]
    assert (pages[0].count, pages[0].is_counted) == told


@pytest.mark.parametrize("is_narrowed", [True, False])
def test_leafing_through_what_words_find_meets_every_part_once(short, member, is_narrowed):
    for number in range(7):
        record_part({"description": f"hinge {number}"}, by=member)

    pages = walk(words="hinge", is_narrowed=is_narrowed)

    met = [row.description for page in pages for row in page.rows]
    assert met == [f"hinge {number}" for number in range(7)]
    assert (pages[0].count, pages[0].is_counted) == (3, False)


@pytest.mark.parametrize("is_narrowed", [True, False])
def test_page_behind_the_last_is_the_last(is_narrowed):
    part = PartFactory()

    page = part_page(Part.objects.kept(), number=9, is_narrowed=is_narrowed)

    assert (numbers(page), page.number) == ([part.number], 1)


def test_addresses_are_those_that_reversing_gives():
    found = addresses("photo-file", [7, 1230], 320)

    assert found == {key: reverse("photo-file", args=[key, 320]) for key in (7, 1230)}


def test_remembered_answer_lasts_until_a_row_changes():
    asked = []

    def count():
        asked.append(1)
        return Part.objects.count()

    PartFactory()
    assert [remembered("test", (Part,), count) for _ in range(2)] == [1, 1]
    PartFactory()
    assert remembered("test", (Part,), count) == 2
    assert len(asked) == 2


@pytest.mark.parametrize(
    ("state", "told"),
    [(Fitting.State.FITTED, "on Wagon 14"), (Fitting.State.RESERVED, "not recorded")],
)
def test_fitted_part_is_where_its_vehicle_is(state, told):
    fitting = FittingFactory(state=state, part__location=None, vehicle__label="Wagon 14")

    rows = part_rows([fitting.part_id])

    assert [row.where for row in rows] == [told]


def test_lot_that_is_fitted_twice_is_one_row():
    lot = PartFactory(quantity=2, location=None)
    FittingFactory.create_batch(2, part=lot, state=Fitting.State.FITTED)

    assert [row.pk for row in part_rows([lot.pk])] == [lot.pk]
