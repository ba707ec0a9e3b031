"""Uncertainties against published guides, scipy's distributions and plain simulation."""

import math
from fractions import Fraction

import numpy as np
import pytest
from scipy import stats

from catalog.reckoning.uncertainty import (
    Measured,
    add_allowance,
    agreement,
    chi_squared_tail,
    combine,
    rectangular,
    resolution_uncertainty,
    root_sum_square,
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
