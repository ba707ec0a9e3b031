"""How many places were filled at each time."""

import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from catalog.reckoning.completeness import Change, Step, steps

DAY = dt.date(2026, 4, 1)


def day(number):
    return DAY + dt.timedelta(days=number)


def put(on, place, fitting):
    return Change(day(on), place, fitting, is_filled=True)


def take(on, place, fitting):
    return Change(day(on), place, fitting, is_filled=False)


def test_nothing_fitted_makes_no_step():
    assert steps([], {1}) == ()
    assert steps([take(0, 1, 1)], {1}) == ()


def test_putting_in_and_taking_out():
    changes = [put(0, 1, 1), put(2, 2, 2), take(5, 1, 1)]

    assert steps(changes, {1, 2}) == (Step(day(0), 1), Step(day(2), 2), Step(day(5), 1))


def test_exchange_within_a_day_is_no_step():
    assert steps([put(0, 1, 1), take(3, 1, 1), put(3, 1, 2)], {1}) == (Step(day(0), 1),)


def test_places_that_do_not_count_are_left_out():
    assert steps([put(0, 9, 1)], {1}) == ()


def test_place_counts_once_for_two_fittings():
    assert steps([put(0, 1, 1), put(1, 1, 2), take(2, 1, 1)], {1}) == (Step(day(0), 1),)


CHANGES = st.lists(
    st.tuples(st.integers(0, 9), st.integers(1, 3), st.integers(1, 3), st.booleans())
)


@given(CHANGES)
def test_steps_tell_what_a_replay_up_to_that_day_finds(drawn):
    changes = [Change(day(on), place, fit, is_filled=f) for on, place, fit, f in sorted(drawn)]

    found = steps(changes, {1, 2})

    for number in range(10):
        held = set()
        for change in changes:
            if change.on <= day(number):
                pair = (change.place, change.fitting)
                (held.add if change.is_filled else held.discard)(pair)
        filled = len({place for place, _ in held if place in {1, 2}})
        told = [step.filled for step in found if step.on <= day(number)]
        assert (told[-1] if told else 0) == filled
