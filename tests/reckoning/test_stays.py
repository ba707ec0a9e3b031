"""When a visit goes on, and when it is over."""

import datetime as dt

import pytest

from catalog.reckoning.stays import NOTED_EVERY, OVER_AFTER, Stay, opened

NOON = dt.datetime(2026, 4, 1, 12, tzinfo=dt.UTC)
SECOND = dt.timedelta(seconds=1)
EARLIER = NOON - dt.timedelta(days=3)


def test_nothing_is_news_on_the_first_visit_of_all():
    assert opened(None, NOON) == Stay(NOON, since=None, is_over=False)


@pytest.mark.parametrize("later", [dt.timedelta(), SECOND, NOTED_EVERY, -SECOND])
def test_look_within_half_an_hour_changes_nothing(later):
    stay = Stay(NOON, since=EARLIER)

    assert opened(stay, NOON + later) is stay


@pytest.mark.parametrize("later", [NOTED_EVERY + SECOND, OVER_AFTER])
def test_visit_goes_on_and_its_news_stay_news(later):
    stay = Stay(NOON, since=EARLIER)

    assert opened(stay, NOON + later) == Stay(NOON + later, since=EARLIER)


def test_after_four_hours_another_visit_begins_with_what_came_since_the_last_look():
    stay = Stay(NOON, since=EARLIER)
    evening = NOON + OVER_AFTER + SECOND

    assert opened(stay, evening) == Stay(evening, since=NOON)


def test_visit_that_was_ended_goes_on_no_more():
    stay = Stay(NOON, since=EARLIER, is_over=True)

    assert opened(stay, NOON + SECOND) == Stay(NOON + SECOND, since=NOON)
