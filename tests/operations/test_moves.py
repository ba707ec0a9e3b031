"""Moving parts, and moving them back."""

import datetime as dt

import pytest
from django.core.exceptions import ValidationError
from django.utils import timezone

from catalog.models import Move
from catalog.operations.moves import move_back, move_part, move_parts
from tests.factories import LocationFactory, PartFactory

pytestmark = pytest.mark.django_db

YESTERDAY = dt.datetime(2026, 5, 4, 9, tzinfo=dt.UTC)


@pytest.fixture
def shelf():
    return LocationFactory(name="Back shelf")


def test_move_says_from_where_to_where_by_whom_and_when(member, shelf):
    bench = LocationFactory()
    part = PartFactory(location=bench)

    move = move_part(part, location=shelf, note=" dried ", by=member, at=YESTERDAY)

    assert (move.from_location, move.to_location) == (bench, shelf)
    assert (move.moved_by, move.moved_at, move.note) == (member, YESTERDAY, "dried")
    part.refresh_from_db()
    assert part.location == shelf
    assert part.history.latest().history_change_reason == "moved to Back shelf"


def test_part_goes_into_another_and_out_again(member, shelf):
    crate = PartFactory(location=shelf)
    bolt = PartFactory(location=shelf)

    move_part(bolt, inside=crate, by=member)
    assert (bolt.location, bolt.inside) == (None, crate)

    move_part(bolt, location=shelf, by=member)
    assert (bolt.location, bolt.inside) == (shelf, None)


def test_part_inside_itself_is_refused(member):
    crate = PartFactory()

    with pytest.raises(ValidationError, match="cannot be put inside itself"):
        move_part(crate, inside=crate, by=member)


def test_part_inside_what_it_holds_is_refused(member):
    crate = PartFactory(number="2026.1.1")
    tin = PartFactory(number="2026.1.2", inside=crate)

    with pytest.raises(ValidationError) as refusal:
        move_part(crate, inside=tin, by=member)

    assert refusal.value.messages == ["2026.1.1 cannot be put inside 2026.1.2, which is inside it."]


def test_three_parts_may_hold_one_another_and_not_four(member):
    crate = PartFactory()
    box = PartFactory(inside=crate)
    tin = PartFactory(inside=box)
    bolt = PartFactory()

    move_part(bolt, inside=tin, by=member)

    with pytest.raises(ValidationError, match="at most 3 parts hold one another"):
        move_part(PartFactory(), inside=bolt, by=member)


def test_what_a_part_holds_counts_for_the_nest(member):
    crate = PartFactory(inside=PartFactory())
    box = PartFactory()
    PartFactory(inside=PartFactory(inside=box))

    with pytest.raises(ValidationError, match="at most 3 parts hold one another"):
        move_part(box, inside=crate, by=member)


@pytest.mark.parametrize("both", [True, False])
def test_one_place_is_asked_for(member, shelf, both):
    places = {"location": shelf, "inside": PartFactory()} if both else {}

    with pytest.raises(ValidationError, match="Say where it goes"):
        move_part(PartFactory(), by=member, **places)


def test_withdrawn_location_or_part_is_refused(member, shelf):
    gone = LocationFactory(name="Pit", withdrawn_at=timezone.now())

    with pytest.raises(ValidationError, match="Pit is withdrawn"):
        move_part(PartFactory(), location=gone, by=member)
    with pytest.raises(ValidationError, match="is withdrawn"):
        move_part(PartFactory(withdrawn_at=timezone.now()), location=shelf, by=member)


def test_part_that_is_there_already_is_refused(member, shelf):
    with pytest.raises(ValidationError, match="is there already: Back shelf"):
        move_part(PartFactory(location=shelf), location=shelf, by=member)
    assert not Move.objects.exists()


def test_several_parts_move_in_one_go_and_again_changes_nothing(member, shelf):
    parts = [PartFactory(), PartFactory(), PartFactory(location=shelf)]

    assert len(move_parts(parts, location=shelf, by=member)) == 2
    assert move_parts(parts, location=shelf, by=member) == []


def test_several_parts_move_all_or_none(member, shelf):
    parts = [PartFactory(), PartFactory(withdrawn_at=timezone.now())]

    with pytest.raises(ValidationError):
        move_parts(parts, location=shelf, by=member)

    assert not Move.objects.exists()


def test_moves_are_undone(member, shelf):
    bench = LocationFactory()
    parts = [PartFactory(location=bench), PartFactory()]
    moves = move_parts(parts, location=shelf, by=member)

    move_back(moves, by=member)

    assert [part.location for part in parts] == [bench, None]
    assert Move.objects.filter(note="moved back").count() == 2


def test_undo_is_refused_once_the_part_has_moved_on(member, shelf):
    part = PartFactory()
    move = move_part(part, location=shelf, by=member)
    move_part(part, location=LocationFactory(), by=member)

    with pytest.raises(ValidationError, match="has been moved again since"):
        move_back([move], by=member)


def test_stale_part_is_looked_at_afresh(member, shelf):
    part = PartFactory()
    stale = type(part).objects.get(pk=part.pk)
    move_part(part, location=shelf, by=member)

    move = move_part(stale, location=LocationFactory(), by=member)

    assert move.from_location == shelf
