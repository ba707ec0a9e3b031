"""Conformance probabilities: refusals, extremes, symmetry, order, and arrays."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from catalog.reckoning.fit_probabilities import (
    JointProbability,
    LimitsError,
    best_probability,
    clearance_probability,
    conformance_probabilities,
    conformance_probability,
    joint_probability,
    log_conformance_probability,
)
from catalog.reckoning.uncertainty import Measured, UncertaintyError

lengths = st.floats(-1e9, 1e9)
doubts = st.floats(1e-9, 1e9)
shares = st.floats(0, 1)


@pytest.mark.parametrize("uncertainty", [0.0, -1.0, math.nan, math.inf])
def test_an_uncertainty_not_above_zero_is_refused(uncertainty):
    with pytest.raises(UncertaintyError, match="more than 0 mm"):
        conformance_probability(95.0, uncertainty, lower=90)
    with pytest.raises(UncertaintyError, match="more than 0 mm"):
        conformance_probabilities([95.0], [uncertainty], [90], [np.nan])
    with pytest.raises(UncertaintyError, match="more than 0 mm"):
        best_probability(uncertainty, lower=90)


@pytest.mark.parametrize(
    ("limits", "words"),
    [
        ({}, "give at least one"),
        ({"lower": 96.0, "upper": 95.0}, "upper limit 95.0 is below the lower limit 96.0"),
        ({"lower": math.nan}, "plain number"),
        ({"upper": math.inf}, "Leave out what has no limit"),
    ],
)
def test_limits_that_say_nothing_are_refused(limits, words):
    with pytest.raises(LimitsError, match=words):
        conformance_probability(95.0, 0.1, **limits)


@pytest.mark.parametrize("value", [math.nan, math.inf])
def test_a_value_that_is_not_a_number_is_refused(value):
    with pytest.raises(UncertaintyError, match="plain number"):
        conformance_probability(value, 0.1, lower=90)


@pytest.mark.parametrize(
    ("arrays", "words"),
    [
        (([math.inf], [1.0], [0.0], [1.0]), "plain numbers"),
        (([0.0], [1.0], [-math.inf], [1.0]), "plain numbers"),
        (([0.0, 0.0], [1.0], [0.0, 2.0], [1.0]), "below its lower limit"),
    ],
)
def test_arrays_with_impossible_entries_are_refused(arrays, words):
    with pytest.raises(LimitsError, match=words):
        conformance_probabilities(*arrays)


def test_arrays_answer_nan_where_nothing_is_measured_or_required():
    answer = conformance_probabilities(
        [1.0, np.nan, 1.0], [1.0, np.nan, 1.0], [0.0, 0.0, np.nan], np.nan
    )

    assert np.isnan(answer).tolist() == [False, True, True]


def test_equal_limits_leave_no_room():
    assert conformance_probability(95.0, 0.1, lower=95, upper=95) == 0.0
    assert conformance_probabilities([95.0], [0.1], [95.0], [95.0]).tolist() == [0.0]


def test_probabilities_below_the_smallest_number_stay_finite_and_in_order():
    distances = (40.0, 1e3, 1e6, 1e9)

    logs = [log_conformance_probability(0.0, 1e-9, lower=d, upper=d + 1) for d in distances]

    assert all(math.isfinite(log) for log in logs)
    assert logs == sorted(logs, reverse=True)
    assert conformance_probability(0.0, 1.0, lower=38.0, upper=39.0) > 0.0
    assert conformance_probability(0.0, 1e-9, lower=1e9) == 0.0


@given(lengths, doubts, lengths, st.floats(1e-6, 1e9))
def test_mirrored_values_and_limits_have_the_same_probability(value, doubt, lower, width):
    upper = lower + width

    mirrored = conformance_probability(-value, doubt, lower=-upper, upper=-lower)

    assert mirrored == pytest.approx(
        conformance_probability(value, doubt, lower=lower, upper=upper), rel=1e-9
    )


@given(st.floats(0, 1e3), st.floats(0, 1e3), st.floats(1e-3, 1e3), st.floats(1e-3, 1e3))
def test_farther_from_the_middle_is_never_likelier(first, second, doubt, width):
    near, far = sorted((first, second))

    inner = log_conformance_probability(near, doubt, lower=-width, upper=width)
    outer = log_conformance_probability(far, doubt, lower=-width, upper=width)

    assert outer <= inner + 1e-9 * max(1.0, abs(inner))


@given(lengths, doubts, lengths, st.floats(0, 1e6), st.floats(0, 1e6))
def test_wider_limits_are_never_less_likely(value, doubt, lower, width, more):
    narrow = conformance_probability(value, doubt, lower=lower, upper=lower + width)
    wide = conformance_probability(value, doubt, lower=lower, upper=lower + width + more)

    assert narrow <= wide + 1e-9


@given(st.floats(1e-3, 100), st.floats(1e-3, 100))
def test_the_answer_is_certain_as_the_doubt_vanishes(margin, width):
    tiny = 1e-3 * min(margin, width) / 10

    inside = conformance_probability(0.0, tiny, lower=-margin, upper=width)
    outside = conformance_probability(0.0, tiny, lower=margin, upper=margin + width)

    assert (inside, outside) == (1.0, 0.0)


@given(lengths, doubts, lengths, st.floats(0, 1e9))
def test_any_logarithm_is_a_number_and_any_probability_within_bounds(value, doubt, lower, width):
    assume(lower + width > lower)

    log = log_conformance_probability(value, doubt, lower=lower, upper=lower + width)

    assert log <= 0.0
    assert 0.0 <= conformance_probability(value, doubt, lower=lower, upper=lower + width) <= 1.0


@given(
    st.lists(
        st.tuples(lengths, doubts, lengths, st.floats(0, 1e9), st.sampled_from("lub")), min_size=1
    )
)
def test_arrays_agree_with_single_answers(rows):
    cases = [
        (y, u, low if side != "u" else None, low + width if side != "l" else None)
        for y, u, low, width, side in rows
    ]

    together = conformance_probabilities(*np.array(cases, dtype=float).T)

    singles = [conformance_probability(y, u, lower=low, upper=high) for y, u, low, high in cases]
    assert np.abs(together - singles).max() <= 1e-12


@given(lengths, doubts, lengths, doubts, st.floats(0, 100))
def test_a_clearance_is_the_same_seen_from_either_piece(
    inner, inner_doubt, outer, outer_doubt, room
):
    pin, bore = Measured(inner, inner_doubt), Measured(outer, outer_doubt)

    straight = clearance_probability(pin, bore, least=0.0, greatest=room)

    assert straight == pytest.approx(
        clearance_probability(bore, pin, least=-room, greatest=0.0), rel=1e-9
    )


@given(doubts, lengths, st.floats(1e-3, 1e6), st.floats(0, 1))
def test_no_value_does_better_than_the_middle(doubt, lower, width, share):
    upper = lower + width
    value = lower + share * width

    assert (
        conformance_probability(value, doubt, lower=lower, upper=upper)
        <= best_probability(doubt, lower=lower, upper=upper) + 1e-9
    )


@given(st.lists(shares, min_size=1, max_size=8))
def test_the_joint_probability_lies_within_its_bounds_in_any_order(ps):
    joint = joint_probability(ps)

    assert 0.0 <= joint.lower_bound <= joint.product <= joint.upper_bound <= 1.0
    assert joint.product == pytest.approx(joint_probability(reversed(ps)).product)


def test_one_probability_is_its_own_joint():
    assert joint_probability([0.3]) == JointProbability(0.3, pytest.approx(0.3), 0.3)


@pytest.mark.parametrize(
    ("ps", "words"),
    [
        ([], "Nothing was measured"),
        ([0.5, 1.1], "between 0 and 1"),
        ([math.nan], "between 0 and 1"),
    ],
)
def test_a_joint_probability_of_nothing_or_nonsense_is_refused(ps, words):
    with pytest.raises(ValueError, match=words):
        joint_probability(ps)
