"""Chronology on cases that can be followed by hand."""

import datetime as dt
import random
from dataclasses import replace

import pytest

from catalog.reckoning.chronology import DatedEvent, Order, tighten

BUILT = DatedEvent("built", dt.date(1899, 1, 1), dt.date(1899, 12, 31), "built", "works list")
LISTED = DatedEvent("listed", dt.date(1930, 3, 1), dt.date(1930, 3, 31), "listed", "inventory")
SOLD = DatedEvent("sold", dt.date(1929, 3, 1), dt.date(1929, 5, 31), "sold", "letter")
UNDATED = DatedEvent("rebuilt", None, None, "rebuilt")


def test_an_undated_event_is_held_between_its_neighbors():
    tightened = tighten(
        [BUILT, UNDATED, SOLD], [Order("built", "rebuilt"), Order("rebuilt", "sold")]
    )

    assert tightened["rebuilt"] == replace(UNDATED, earliest=BUILT.earliest, latest=SOLD.latest)


def test_a_least_time_between_moves_both_bounds():
    tightened = tighten(
        [BUILT, UNDATED, SOLD], [Order("built", "rebuilt", 365), Order("rebuilt", "sold", 31)]
    )

    assert tightened["rebuilt"].earliest == dt.date(1900, 1, 1)
    assert tightened["rebuilt"].latest == dt.date(1929, 4, 30)


def test_a_most_time_between_is_a_negative_order():
    tightened = tighten(
        [BUILT, UNDATED], [Order("built", "rebuilt"), Order("rebuilt", "built", -30)]
    )

    assert tightened["rebuilt"].latest == dt.date(1900, 1, 30)


def test_nothing_known_stays_unknown():
    assert tighten([UNDATED], []).events == (UNDATED,)


def test_a_sale_before_a_listing_is_named_with_both_sources():
    order = Order("listed", "sold", label="what is listed is not yet sold")
    (contradiction,) = tighten(
        [BUILT, LISTED, SOLD], [Order("built", "listed"), order]
    ).contradictions

    assert contradiction.in_words() == (
        "These cannot all be true: listed, not before 1 March 1930 (inventory); "
        "what is listed is not yet sold; sold, not after 31 May 1929 (letter)."
    )


def test_events_keep_their_bounds_when_something_contradicts():
    events = (BUILT, LISTED, SOLD, UNDATED)

    assert tighten(events, [Order("listed", "sold"), Order("built", "rebuilt")]).events == events


def test_two_events_each_before_the_other_contradict_without_any_date():
    events = [UNDATED, replace(UNDATED, key="painted", label="painted")]
    orders = [Order("rebuilt", "painted", 1), Order("painted", "rebuilt", 0)]
    (contradiction,) = tighten(events, orders).contradictions

    assert sorted(str(one) for one in contradiction.statements) == [
        "“painted” came before “rebuilt”",
        "“rebuilt” came at least 1 day before “painted”",
    ]


def test_a_limit_that_is_broken_is_said_as_one():
    (contradiction,) = tighten([BUILT, SOLD], [Order("sold", "built", -365)]).contradictions

    assert "“sold” came at most 365 days after “built”" in map(str, contradiction.statements)


def test_two_events_may_fall_on_one_day():
    orders = [Order("built", "rebuilt"), Order("rebuilt", "built")]

    assert tighten([BUILT, UNDATED], orders)["rebuilt"].earliest == BUILT.earliest


def test_an_event_that_ends_before_it_begins_is_a_contradiction_of_its_own():
    (contradiction,) = tighten([replace(BUILT, latest=dt.date(1898, 1, 1))], []).contradictions

    assert contradiction.in_words() == (
        "These cannot all be true: built, not before 1 January 1899 and not after 1 January 1898 "
        "(works list)."
    )


def test_contradictions_that_share_nothing_are_all_named():
    other = [replace(LISTED, key="listed again"), replace(SOLD, key="sold again")]
    orders = [Order("listed", "sold"), Order("listed again", "sold again")]

    assert len(tighten([LISTED, SOLD, *other], orders).contradictions) == 2


def test_a_key_used_twice_is_refused():
    with pytest.raises(ValueError, match="same key"):
        tighten([BUILT, BUILT], [])


def test_an_order_of_an_unknown_event_is_refused():
    with pytest.raises(KeyError):
        tighten([BUILT], [Order("built", "lost")])


def long_story(seed):
    draw = random.Random(seed)
    days = sorted(draw.randint(650_000, 730_000) for _ in range(500))
    events = [
        DatedEvent(
            str(number),
            dt.date.fromordinal(day - draw.randint(0, 3000)),
            None if number % 3 else dt.date.fromordinal(day + 500),
        )
        for number, day in enumerate(days)
    ]
    orders = [Order(str(number), str(number + 1)) for number in range(499)]
    pairs = [sorted(draw.sample(range(500), 2)) for _ in range(1000)]
    orders += [Order(str(one), str(other), days[other] - days[one] - 100) for one, other in pairs]
    draw.shuffle(orders)
    return events, orders


def test_five_hundred_events_in_order_hold_together():
    events, orders = long_story(1)

    assert tighten(events, orders).contradictions == ()


def test_a_contradiction_among_five_hundred_events_is_found():
    events, orders = long_story(2)
    wrong = [*orders, Order("400", "100", 3)]

    assert len(tighten(events, wrong).contradictions) == 1
