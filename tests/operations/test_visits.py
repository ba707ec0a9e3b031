"""Noting when a member was here: seldom, and for nobody else."""

import datetime as dt

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalog.models import Visit
from catalog.operations.visits import end_visit, note_visit
from catalog.queries.visits import is_to_be_noted, stay_of
from catalog.reckoning.stays import Stay

pytestmark = pytest.mark.django_db

NOON = dt.datetime(2026, 4, 1, 12, tzinfo=dt.UTC)
MINUTE = dt.timedelta(minutes=1)


def test_first_look_is_noted(member):
    assert stay_of(member) is None

    assert note_visit(member, at=NOON) == Stay(NOON)
    assert stay_of(member) == Stay(NOON)


def test_look_of_the_same_half_hour_writes_nothing(member):
    note_visit(member, at=NOON)

    with CaptureQueriesContext(connection) as queries:
        note_visit(member, at=NOON + 20 * MINUTE)

    written = [query["sql"] for query in queries if query["sql"].startswith(("INSERT", "UPDATE"))]
    assert written == []
    assert not is_to_be_noted(stay_of(member), NOON + 20 * MINUTE)
    assert is_to_be_noted(stay_of(member), NOON + 31 * MINUTE)


def test_next_visit_begins_with_what_came_since_the_last_look(member):
    note_visit(member, at=NOON)
    note_visit(member, at=NOON + 40 * MINUTE)
    morning = NOON + dt.timedelta(hours=20)

    assert note_visit(member, at=morning).since == NOON + 40 * MINUTE
    assert stay_of(member) == Stay(morning, since=NOON + 40 * MINUTE)


def test_visit_can_be_ended(member):
    note_visit(member, at=NOON)
    end_visit(member)

    assert note_visit(member, at=NOON + MINUTE) == Stay(NOON + MINUTE, since=NOON)


def test_each_member_has_visits_of_their_own(member, curator):
    note_visit(member, at=NOON)
    end_visit(curator)

    assert (stay_of(curator), Visit.objects.count()) == (None, 1)


def test_visits_leave_no_history(member):
    before = member.history.count()
    note_visit(member, at=NOON)

    assert member.history.count() == before
    assert not hasattr(Visit, "history")
