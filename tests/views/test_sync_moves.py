"""Moves that were noted without a signal: done once, and never against what was done later."""

import datetime as dt
from uuid import UUID

import pytest
from django.utils import timezone

from catalog.models import Move
from catalog.operations.moves import move_part
from tests.factories import LocationFactory, PartFactory

pytestmark = pytest.mark.django_db
ADDRESS = f"/sync/moves/{UUID(int=7)}/"
SHELF, PART = "K7Q-2M28", "K7Q-2M9V"


def put_move(client, member, **told):
    told = {"user": member.pk, "scanned": SHELF, "pieces": PART, **told}
    return client.put(ADDRESS, told, content_type="application/json")


@pytest.fixture
def shelf():
    return LocationFactory(name="Rack 2", tag=SHELF)


@pytest.fixture
def part():
    return PartFactory(number="2026.4.17", tag=PART)


def test_move_is_done_once_however_often_it_is_sent(signed_in, member, shelf, part):
    other = PartFactory(number="2026.4.18")
    pieces = f"{PART}\n2026.4.18\n"

    answers = [put_move(signed_in, member, pieces=pieces) for _ in range(3)]

    part.refresh_from_db()
    other.refresh_from_db()
    assert [answer.status_code for answer in answers] == [200, 200, 200]
    assert answers[0].json()["id"] == str(UUID(int=7))
    assert (part.location, other.location, Move.objects.count()) == (shelf, shelf, 2)


def test_move_has_the_time_at_which_it_was_noted(signed_in, member, shelf, part):
    noted = timezone.now() - dt.timedelta(hours=3)
    sent = timezone.now().timestamp() * 1000

    put_move(signed_in, member, written_at=noted.timestamp() * 1000, sent_at=sent)

    assert abs(Move.objects.get().moved_at - noted) < dt.timedelta(seconds=10)


def test_move_that_was_overtaken_is_held_with_the_reason(signed_in, member, curator, shelf, part):
    noted = timezone.now() - dt.timedelta(hours=3)
    move_part(part, location=LocationFactory(name="Bench"), by=curator)
    sent = timezone.now().timestamp() * 1000

    answer = put_move(signed_in, member, written_at=noted.timestamp() * 1000, sent_at=sent)

    part.refresh_from_db()
    assert (answer.status_code, part.location.name) == (422, "Bench")
    assert answer.json()["problems"]["pieces"] == [
        "2026.4.17 was moved again after this was noted, to Bench by cora. "
        "Look where it is, then leave it out here or move it anew."
    ]


@pytest.mark.parametrize(
    ("told", "field"),
    [({"scanned": "nowhere"}, "scanned"), ({"scanned": ""}, ""), ({"pieces": "9.9.9"}, "pieces")],
)
def test_move_that_names_nothing_known_is_refused_in_words(
    signed_in, member, shelf, part, told, field
):
    answer = put_move(signed_in, member, **told)

    assert (answer.status_code, list(answer.json()["problems"])) == (422, [field])
    assert not Move.objects.exists()
