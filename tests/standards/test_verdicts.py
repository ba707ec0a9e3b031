"""Verdicts and joint bounds against scipy's quantiles, linear programming and plain logic."""

import itertools

import numpy as np
import pytest
from scipy import optimize, stats

from catalog.reckoning.conformance import (
    Fit,
    Requirement,
    Trial,
    conformance_probabilities,
    conformance_probability,
    joint_probability,
    verdict,
)
from catalog.reckoning.uncertainty import Measured

LIMIT = Requirement("bore", upper=100.0)


def read_with_chance(chance):
    """Return a reading that lies below 100 mm with this probability, by scipy's quantile."""
    return Measured(100.0 - 0.5 * stats.norm.ppf(chance), 0.5)


# Decision rule with a guard stated as probabilities (JCGM 106:2012, 8.3, clause from memory):
# fits from 0.95, does not fit to 0.05, doubtful between, as the members were told.
@pytest.mark.parametrize(
    ("chance", "fit"),
    [
        (0.999, Fit.FITS),
        (0.9501, Fit.FITS),
        (0.9499, Fit.DOUBTFUL),
        (0.5, Fit.DOUBTFUL),
        (0.0501, Fit.DOUBTFUL),
        (0.0499, Fit.MISFIT),
        (1e-9, Fit.MISFIT),
    ],
)
def test_verdict_turns_at_scipys_quantiles(chance, fit):
    answer = verdict([(LIMIT, read_with_chance(chance))])

    assert answer.as_worn.product == pytest.approx(chance, rel=1e-9)
    assert (answer.fit, answer.characteristics[0].fit) == (fit, fit)


# Independent events multiply: three of 0.97 are 0.9127 together, though each alone would do.
def test_several_that_fit_alone_may_be_doubtful_together():
    answer = verdict([(Requirement(n, upper=100.0), read_with_chance(0.97)) for n in "abc"])

    assert {one.fit for one in answer.characteristics} == {Fit.FITS}
    assert (answer.fit, answer.as_worn.product) == (Fit.DOUBTFUL, pytest.approx(0.97**3))


def test_what_is_required_and_not_measured_is_never_good():
    answer = verdict([(LIMIT, read_with_chance(0.9999)), (Requirement("length", lower=5.0), None)])

    assert (answer.fit, answer.missing) == (Fit.UNKNOWN, ("length",))


@pytest.mark.parametrize("advised", [read_with_chance(1e-9), None])
def test_what_is_advisory_decides_nothing(advised):
    advisory = Requirement("collar", upper=100.0, is_required=False)

    answer = verdict([(LIMIT, read_with_chance(0.99)), (advisory, advised)])

    assert (answer.fit, answer.missing) == (Fit.FITS, ())
    assert answer.as_worn.product == pytest.approx(0.99)


# What was seen on the bench outranks what was reckoned, whichever way the numbers point.
@pytest.mark.parametrize(
    ("trial", "fit"),
    [
        (Trial.WENT, Fit.FITS),
        (Trial.WENT_WITH_WORK, Fit.FITS),
        (Trial.DID_NOT_GO, Fit.MISFIT),
    ],
)
@pytest.mark.parametrize("measured", [read_with_chance(1e-9), read_with_chance(0.9999), None])
def test_trial_outranks_arithmetic(trial, fit, measured):
    assert verdict([(LIMIT, measured)], trial=trial).fit == fit


# The sharpest bounds for any dependence are a linear program over all 2ⁿ outcomes (Boole, 1854;
# Hailperin, 1965, both from memory), here solved by scipy.
@pytest.mark.parametrize("ps", [(0.9, 0.8), (0.9, 0.8, 0.95), (0.5, 0.6), (0.99, 0.99, 0.99, 0.97)])
def test_bounds_are_those_of_linear_programming(ps):
    outcomes = np.array(list(itertools.product((0, 1), repeat=len(ps))))
    all_hold = outcomes.all(axis=1).astype(float)
    given = np.vstack([outcomes.T, np.ones(len(outcomes))])

    least, most = (
        optimize.linprog(sign * all_hold, A_eq=given, b_eq=[*ps, 1.0]).fun * sign
        for sign in (1, -1)
    )

    joint = joint_probability(ps)
    assert joint.lower_bound == pytest.approx(least, abs=1e-9)
    assert joint.upper_bound == pytest.approx(most, abs=1e-9)
    assert joint.product == pytest.approx(np.prod(ps), rel=1e-12)


def test_arrays_with_open_sides_are_scipys_tails():
    values, doubts = np.array([99.0, 100.0, 101.5]), np.array([0.5, 1.0, 2.0])

    above = conformance_probabilities(values, doubts, 100.0, np.nan)
    below = conformance_probabilities(values, doubts, np.nan, 100.0)

    assert above == pytest.approx(stats.norm.sf(100.0, values, doubts), rel=1e-12)
    assert below == pytest.approx(stats.norm.cdf(100.0, values, doubts), rel=1e-12)


def test_arrays_keep_their_digits_in_either_far_tail():
    values = np.array([112.0, 88.0])

    shares = conformance_probabilities(values, 1.0, 98.0, 102.0)

    assert shares == pytest.approx(stats.norm.sf(10.0) - stats.norm.sf(14.0), rel=1e-9, abs=0.0)


# Pushed away from its limits a size conforms ever less; measured ever finer it is certain.
@pytest.mark.parametrize("u", [1e-9, 1e-3, 1.0, 1e9])
def test_conformance_falls_with_distance_and_is_even_about_the_middle(u):
    away = [float(step) * u for step in range(12)]

    shares = [conformance_probability(50.0 + x, u, lower=50.0 - u, upper=50.0 + u) for x in away]
    mirrored = [conformance_probability(50.0 - x, u, lower=50.0 - u, upper=50.0 + u) for x in away]

    assert all(near > far for near, far in itertools.pairwise(shares))
    assert mirrored == pytest.approx(shares, rel=1e-5)


@pytest.mark.parametrize(("value", "limit"), [(99.0, 1.0), (101.0, 0.0), (100.0, 0.5)])
def test_certainty_is_reached_as_the_uncertainty_vanishes(value, limit):
    shares = [conformance_probability(value, 10.0**-k, upper=100.0) for k in range(12)]

    assert shares[-1] == pytest.approx(limit, abs=1e-12)
    assert sorted(shares, reverse=limit == 0.0) == shares


@pytest.mark.parametrize("size", [1e-9, 1.0, 1e9])
def test_extreme_sizes_keep_their_order(size):
    nearer = conformance_probability(size, size / 30, lower=2 * size)
    farther = conformance_probability(size, size / 30, lower=2.2 * size)

    assert 0.0 < farther < nearer < 1e-190
    assert nearer == pytest.approx(stats.norm.sf(30.0), rel=1e-6)
