"""Taking stock: what is here, missing, unexpected or unknown, and what is put right."""

from operator import attrgetter

import pytest
from django.core.exceptions import ValidationError

from catalog.models import PrintedTag, StockTakeLine
from catalog.operations.moves import move_part
from catalog.operations.record import withdraw
from catalog.operations.stock_takes import move_unexpected, take_stock
from catalog.queries.stock_takes import outcome_of
from tests.factories import LONG_AGO, LocationFactory, PartFactory

pytestmark = pytest.mark.django_db
TAG = "K7Q-2M9V"


@pytest.fixture
def shelf(db):
    return LocationFactory(name="Shelf 2")


def results(taken):
    found = {line.part or line.words: line.result for line in taken.lines.all()}
    assert len(found) == taken.lines.count()
    return found


def test_parts_seen_unseen_and_from_elsewhere_are_told_apart(member, shelf):
    seen = PartFactory(location=shelf, tag=TAG)
    unseen = PartFactory(location=shelf)
    stray = PartFactory(location=LocationFactory())

    taken = take_stock(shelf, ["k7q 2m9v", stray.number, "2026.1.999"], by=member)

    assert results(taken) == {
        seen: "here",
        unseen: "missing",
        stray: "unexpected",
        "2026.1.999": "unknown",
    }


def test_places_inside_and_parts_inside_parts_belong_to_the_location(member, shelf):
    box = LocationFactory(parent=shelf)
    crate = PartFactory(location=box)
    held = PartFactory(inside=PartFactory(inside=crate))
    elsewhere = PartFactory(inside=PartFactory(location=LocationFactory()))

    taken = take_stock(shelf, [crate.number, held.number, elsewhere.number], by=member)

    assert results(taken) == {crate: "here", held: "here", elsewhere: "unexpected"}


def test_what_a_crate_holds_is_not_missed(member, shelf):
    crate = PartFactory(location=shelf)
    PartFactory(inside=crate)

    assert results(take_stock(shelf, [crate.number], by=member)) == {crate: "here"}


def test_line_scanned_twice_by_number_and_by_tag_counts_once(member, shelf):
    part = PartFactory(location=shelf, tag=TAG, number="2026.1.4a", number_sort="4")

    taken = take_stock(shelf, [TAG, "2026.1.4A", TAG, "  "], by=member)

    assert results(taken) == {part: "here"}


def test_labels_of_the_location_are_passed_over_and_others_are_told(member, shelf):
    shelf.tag = TAG
    shelf.save(update_fields=["tag"])
    other = LocationFactory(name="Box 9", tag="9KV-5W9R")

    taken = take_stock(shelf, [TAG, other.tag, PartFactory().number], by=member)

    unknown = taken.lines.get(result="unknown")
    assert (unknown.words, unknown.note) == ("9KV-5W9R", "the label of Box 9, not of a part")


@pytest.mark.parametrize(
    ("line", "note"),
    [
        (
            "K7Q-29MV",
            "One character of K7Q-29MV is wrong, or two have changed places; look at the tag again.",
        ),
        ("K7Q-2M9V", "nothing in the catalog bears this tag"),
        ("2019.3.1", "no part has this number"),
    ],
)
def test_unknown_line_says_why(member, shelf, line, note):
    taken = take_stock(shelf, [line], by=member)

    assert taken.lines.get().note == note


def test_printed_tag_without_a_piece_is_told(member, shelf):
    PrintedTag.objects.create(code=TAG, sheet=1, printed_at=LONG_AGO, printed_by=member)

    note = take_stock(shelf, [TAG], by=member).lines.get().note

    assert note == "this tag was printed, but no piece was taken in with it yet"


def test_withdrawn_part_is_unknown_and_says_why_it_was_withdrawn(member, curator, shelf):
    part = PartFactory(location=shelf)
    withdraw(part, by=curator, reason="entered twice")

    line = take_stock(shelf, [part.number], by=member).lines.get()

    assert (line.result, line.note) == ("unknown", f"{part} is withdrawn: entered twice")


def test_empty_list_at_an_empty_place_is_refused(member, shelf):
    with pytest.raises(ValidationError, match="nothing was scanned"):
        take_stock(shelf, [], by=member)


def test_empty_list_at_a_place_with_parts_finds_all_of_them_missing(member, shelf):
    PartFactory.create_batch(2, location=shelf)

    taken = take_stock(shelf, [], by=member)

    assert set(results(taken).values()) == {StockTakeLine.Result.MISSING}


def test_unexpected_parts_are_moved_and_the_stock_take_stays_as_it_was(member, shelf):
    strays = PartFactory.create_batch(2, location=LocationFactory(name="Yard"))
    taken = take_stock(shelf, [part.number for part in strays], by=member)

    moves = move_unexpected(taken, by=member)

    assert sorted((move.part for move in moves), key=attrgetter("pk")) == strays
    assert {move.to_location for move in moves} == {shelf}
    assert {line.recorded_at for line in taken.lines.all()} == {"Yard"}
    assert set(results(taken).values()) == {"unexpected"}


def test_part_moved_since_by_somebody_is_left_alone(member, shelf):
    stray = PartFactory(location=LocationFactory())
    taken = take_stock(shelf, [stray.number], by=member)
    move_part(stray, location=shelf, by=member)

    assert outcome_of(taken).elsewhere == ()
    with pytest.raises(ValidationError, match="recorded here by now"):
        move_unexpected(taken, by=member)


def test_stock_take_of_many_lines_takes_few_queries(member, shelf, django_assert_max_num_queries):
    parts = PartFactory.create_batch(40, location=shelf)

    with django_assert_max_num_queries(20):
        take_stock(shelf, [part.number for part in parts], by=member)
