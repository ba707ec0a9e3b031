"""What changed in a stretch of time, told by kind, and what of it is news to a member."""

import datetime as dt

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from catalog.models import Part
from catalog.operations.answers import acknowledge_answer, receive_answer
from catalog.operations.captures import take_in, undo_capture
from catalog.operations.fittings import fit_part, reserve_part
from catalog.operations.identifications import give_opinion, propose_identification
from catalog.operations.lots import split_part
from catalog.operations.moves import move_part
from catalog.operations.parties import record_party
from catalog.operations.removals import remove_part
from catalog.operations.wants import publish_want
from catalog.queries.changes import changes_in, news_of
from catalog.queries.deeds import Kind
from catalog.queries.spans import Span
from tests.factories import ComponentFactory, LocationFactory, PartFactory, WantFactory
from tests.tramway import lay_out_class

pytestmark = pytest.mark.django_db


@pytest.fixture
def before():
    return timezone.now()


def told(groups):
    """Return the lines of each group as they are read, by its words."""
    return {
        group.words: [
            f"{', '.join(thing.label for thing in line.shown)}"
            f"{f' and {line.more} more' if line.more else ''}: {line.words}"
            f"{f' ({line.by})' if line.by else ''}"
            for line in group.lines
        ]
        for group in groups
    }


def test_pieces_taken_in_in_a_sitting_are_one_line(before, member, curator):
    parts = [take_in(by=member, description=f"casting {n}") for n in range(1, 6)]

    (group,) = news_of(curator, before).groups

    newest = ", ".join(f"{part} {part.description}" for part in parts[:1:-1])
    assert told([group]) == {"5 parts taken in": [f"{newest} and 2 more: taken in (walt)"]}


def test_ones_own_doings_are_no_news_to_oneself(before, member):
    take_in(by=member, description="casting")

    assert news_of(member, before).groups == ()


def test_what_was_done_before_is_no_news(member, curator):
    take_in(by=member, description="casting")

    assert news_of(curator, timezone.now()).groups == ()


def test_piece_taken_in_by_mistake_is_no_news(before, member, curator):
    undo_capture(take_in(by=member, description="casting"), by=member)

    assert told(news_of(curator, before).groups) == {}


def test_what_parts_are_is_told_with_agreement_and_dispute(member, curator, steward):
    part, other = PartFactory(number="2026.1.20"), PartFactory(number="2026.1.21")
    before = timezone.now()
    strap = ComponentFactory(name="strap hinge")
    first = propose_identification(part, component=strap, by=member)
    second = propose_identification(other, component=strap, by=member)
    give_opinion(first, agrees=False, reasons="the holes are too far apart", by=curator)
    give_opinion(second, agrees=True, by=curator)

    assert told(news_of(steward, before).groups) == {
        "What parts are: 1 agreed, 1 disputed and 2 said": [
            "2026.1.21: agreed: strap hinge (cora)",
            "2026.1.20: disputed: strap hinge, “the holes are too far apart” (cora)",
            "2026.1.21, 2026.1.20: said to be strap hinge (walt)",
        ]
    }


def test_moves_are_told_with_where_to(member, curator):
    shelf = LocationFactory(name="Rack B")
    part = PartFactory(number="2026.1.7", description="brass", location=LocationFactory())
    before = timezone.now()
    move_part(part, location=shelf, by=member)

    assert told(news_of(curator, before).groups) == {
        "1 part moved": ["2026.1.7 brass: moved to Rack B (walt)"]
    }


def test_fittings_bring_a_vehicle_nearer_to_done(curator, member):
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14", journal_box=("L1",))
    since = timezone.now()
    for code in ("A", "B"):
        fit_part(shop.part("drawhead"), wagon, shop.position("drawhead", code), by=curator)
    reserve_part(shop.part("hinge"), wagon, shop.position("hinge", "HL"), by=curator)

    news = told(news_of(member, since).groups)
    assert [line.split(": ")[1] for line in news["2 parts fitted"]] == ["fitted on Wagon 14 (cora)"]
    assert news["1 vehicle nearer to done"] == [
        "Wagon 14: 2 more essential positions filled, 3 of 6"
    ]


def test_what_is_taken_off_puts_a_vehicle_farther_off(curator, member):
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14")
    part = shop.part("drawhead", number="2026.4.1")
    fitting = fit_part(part, wagon, shop.position("drawhead", "A"), by=curator)
    since = timezone.now()
    remove_part(fitting, location=LocationFactory(), by=curator)

    assert told(news_of(member, since).groups) == {
        "1 part taken off": ["2026.4.1 drawhead: taken off Wagon 14 (cora)"],
        "How far the vehicles are": ["Wagon 14: 1 fewer essential position filled, 0 of 6"],
    }


def test_answers_are_told_without_who_wrote_them(before, member, curator):
    want = publish_want(WantFactory(title="Drawhead"), by=curator)
    told_by = {"name": "Ada Skarn", "contact": "ada@skarn.example", "words": "One lies here."}
    answer = receive_answer(want, {**told_by, "has_consent": True})
    acknowledge_answer(answer, by=curator)

    news = told(news_of(member, before).groups)

    assert news == {
        "1 new answer to what we ask for": [
            "Drawhead: an answer acknowledged (cora)",
            "Drawhead: an answer came in (Somebody from outside)",
        ]
    }
    assert "Ada" not in str(news)


def test_piece_split_off_is_neither_taken_in_nor_said_anew(member, curator):
    lot = PartFactory(number="2026.1.9", quantity=9)
    propose_identification(lot, component=ComponentFactory(), by=member)
    since = timezone.now()
    split_part(lot, 2, by=member)

    assert told(news_of(curator, since).groups) == {}


def test_all_that_changed_is_told_of_everybody_or_of_one(before, member, curator):
    take_in(by=member, description="casting")
    record_party({"name": "Rowan Ashdown"}, by=curator)

    everybody = told(changes_in(Span(before)))
    one = told(changes_in(Span(before, by=curator.pk)))

    assert list(everybody) == ["1 part taken in", "Written down besides"]
    assert one == {"Written down besides": ["party Rowan Ashdown: recorded (cora)"]}


def test_one_kind_and_an_end_leave_out_the_rest(before, member, curator):
    part = take_in(by=member, description="casting")
    end = timezone.now()
    move_part(part, location=LocationFactory(), by=member)

    assert list(told(changes_in(Span(before), Kind.MOVED))) == ["1 part moved"]
    assert list(told(changes_in(Span(before, end)))) == ["1 part taken in"]
    assert changes_in(Span(before, end), Kind.MOVED) == ()


def test_news_cost_the_same_for_one_and_for_three(before, member, curator):
    def cost():
        move_part(take_in(by=member, description="x"), location=LocationFactory(), by=member)
        with CaptureQueriesContext(connection) as queries:
            news_of(curator, before)
        return len(queries)

    assert cost() == cost() == cost()


def test_news_are_remembered_until_something_changes(before, member, curator):
    take_in(by=member, description="x")
    first = news_of(curator, before)
    with CaptureQueriesContext(connection) as queries:
        assert news_of(curator, before).groups is first.groups

    assert len(queries) == 1
    take_in(by=member, description="y")
    assert list(told(news_of(curator, before).groups)) == ["2 parts taken in"]


def test_later_sitting_is_a_line_of_its_own(before, member, curator):
    first, second = (take_in(by=member, description="casting") for _ in range(2))
    Part.history.filter(id=first.pk).update(history_date=before + dt.timedelta(minutes=1))
    Part.history.filter(id=second.pk).update(history_date=before + dt.timedelta(minutes=12))

    (group,) = changes_in(Span(before), Kind.TAKEN_IN)

    assert [len(line.things) for line in group.lines] == [1, 1]
