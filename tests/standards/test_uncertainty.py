"""Uncertainties against published guides, scipy's distributions and plain simulation."""

import math
from fractions import Fraction

import numpy as np
import pytest
from scipy import stats

from catalog.reckoning.instruments import starting_uncertainty
from catalog.reckoning.lengths import parse_length
from catalog.reckoning.uncertainty import (
    INSTRUMENTS,
    Measured,
    add_allowance,
    agreement,
    chi_squared_tail,
    combine,
    distance,
    rectangular,
    resolution_uncertainty,
    root_sum_square,
    take_reading,
    triangular,
)

INCH = Fraction("25.4")


@pytest.mark.parametrize(
    ("step_mm", "expected"),
    [
        (INCH / 64, 0.114568),
        (INCH / 32, 0.229136),
        (INCH / 16, 0.458272),
        (INCH / 1000, 0.00733235),
        (1, 0.288675),
        (0.02, 0.0057735),
    ],
)
def test_resolution_uncertainties_follow_jcgm_100(step_mm, expected):
    # JCGM 100:2008, F.2.2.1: u = 0.29 δx, exactly δx/√12; the clause from memory, values computed.
    assert resolution_uncertainty(step_mm) == pytest.approx(expected, rel=5e-6)


def test_a_rectangular_range_follows_the_eurachem_example():
    # EURACHEM/CITAC, Quantifying Uncertainty in Analytical Measurement, E.1: 7 to 10 gives 0.87.
    assert round(rectangular(1.5), 2) == 0.87


def test_what_the_maker_of_an_instrument_states_is_rectangular_as_in_the_eurachem_example():
    assert round(starting_uncertainty(greatest_error_mm=1.5), 2) == 0.87
    assert starting_uncertainty(resolution_mm=1.0) == resolution_uncertainty(1.0)
    assert starting_uncertainty(resolution_mm=9.0, greatest_error_mm=1.5) == (
        resolution_uncertainty(9.0)
    )
    assert starting_uncertainty() is None


def test_rectangular_and_triangular_are_the_deviations_of_scipys_distributions():
    assert rectangular(1.5) == pytest.approx(stats.uniform(-1.5, 3).std(), rel=1e-12)
    assert triangular(1.5) == pytest.approx(stats.triang(0.5, -1.5, 3).std(), rel=1e-12)


def test_independent_parts_combine_as_a_simulation_does():
    draws = np.random.default_rng(1).normal(0, [0.3, 0.4, 1.2], (200_000, 3)).sum(axis=1)
    standard_error = draws.std() / math.sqrt(2 * len(draws))

    assert abs(root_sum_square(0.3, 0.4, 1.2) - draws.std()) < 3 * standard_error


def test_an_allowance_combines_as_a_simulation_does():
    random = np.random.default_rng(2)
    draws = random.normal(100, 0.3, 200_000) - random.uniform(0, 1, 200_000)

    allowed = add_allowance(Measured(100.0, 0.3), less=1.0)

    assert abs(allowed.value - draws.mean()) < 3 * draws.std() / math.sqrt(len(draws))
    assert allowed.uncertainty == pytest.approx(draws.std(), rel=0.01)


def test_the_weighted_mean_is_numpys():
    values, doubts = [64.1, 64.3, 64.0], [0.1, 0.2, 0.4]
    weights = [1 / doubt**2 for doubt in doubts]

    combined = combine(*map(Measured, values, doubts))

    assert combined.value == pytest.approx(np.average(values, weights=weights), rel=1e-12)
    assert combined.uncertainty == pytest.approx(1 / math.sqrt(sum(weights)), rel=1e-12)


@pytest.mark.parametrize("degrees", [1, 2, 3, 4, 7, 10, 25])
@pytest.mark.parametrize("chi_squared", [0.0, 0.01, 1.0, 6.63, 40.0, 600.0])
def test_the_chi_squared_tail_is_scipys(chi_squared, degrees):
    expected = stats.chi2.sf(chi_squared, degrees)

    assert chi_squared_tail(chi_squared, degrees) == pytest.approx(expected, rel=1e-10)


def test_honest_repeats_are_flagged_about_once_in_a_hundred():
    draws = np.random.default_rng(3).normal(64.1, 0.2, (4000, 3))

    flagged = sum(not agreement(*(Measured(x, 0.2) for x in row)).is_consistent for row in draws)

    assert abs(flagged / 4000 - 0.01) < 3 * math.sqrt(0.01 * 0.99 / 4000)


# JCGM 100:2008, 4.2.3 (clause from memory): the standard error of the mean, here scipy's.
def test_repeats_that_scatter_widely_have_scipys_standard_error():
    values = [64.0, 64.6, 64.3, 65.1]

    combined = combine(*(Measured(value, 0.01) for value in values))

    assert combined.value == pytest.approx(np.mean(values), rel=1e-12)
    assert combined.uncertainty == pytest.approx(stats.sem(values), rel=1e-12)


def test_an_error_that_all_repeats_share_is_not_averaged_away_as_a_simulation_shows():
    # Every reading of a set has the error of one rule, besides a small one of its own.
    random = np.random.default_rng(7)
    rule = resolution_uncertainty(1)
    shared = random.normal(0, rule, (20_000, 1))
    means = (64.0 + shared + random.normal(0, 0.01, (20_000, 25))).mean(axis=1)

    combined = combine(*[Measured(64.0, 0.01)] * 25, least_uncertainty=rule)

    assert combined.uncertainty == pytest.approx(means.std(), rel=0.02)


def test_chi_squared_of_unequal_readings_is_about_their_weighted_mean():
    values, doubts = np.array([64.1, 64.9, 64.0]), np.array([0.1, 0.4, 0.2])
    mean = np.average(values, weights=doubts**-2)
    expected = (((values - mean) / doubts) ** 2).sum()

    found = agreement(*map(Measured, values.tolist(), doubts.tolist()))

    assert found.chi_squared == pytest.approx(expected, rel=1e-9)
    assert found.chance == pytest.approx(stats.chi2.sf(expected, 2), rel=1e-9)


def test_the_distance_of_two_readings_is_in_deviations_of_their_difference():
    draws = np.random.default_rng(8).normal([10.0, 20.0], [3.0, 4.0], (200_000, 2))
    deviation = (draws[:, 1] - draws[:, 0]).std()

    assert distance(Measured(10.0, 3.0), Measured(20.0, 4.0)) == pytest.approx(
        10.0 / deviation, rel=0.01
    )


# A reading is no better than the coarser of its text and its tool, since both round it.
@pytest.mark.parametrize(
    ("text", "tool", "divisions"),
    [("95 mm", "micrometer", 1), ("95.250 mm", "rule-16", INCH / 16)],
)
def test_the_coarser_of_text_and_tool_limits_a_reading(text, tool, divisions):
    reading = take_reading(parse_length(text), instrument=INSTRUMENTS[tool])

    assert reading.uncertainty == pytest.approx(float(divisions) / math.sqrt(12), rel=1e-12)
