"""Conformance against JCGM 106, published fits, scipy's normal distribution and simulation."""

import math

import numpy as np
import pytest
from scipy import stats

from catalog.reckoning.conformance import (
    FITS_AT_LEAST,
    Fit,
    Requirement,
    best_probability,
    clearance,
    clearance_probability,
    conformance_probabilities,
    conformance_probability,
    joint_probability,
    log_conformance_probability,
    verdict,
)
from catalog.reckoning.uncertainty import Measured, resolution_uncertainty

INCH = 25.4
# 49 CFR 230.96, pins 0 to 3/32 in smaller than their holes, from memory.
PIN_LIMITS = {"least": 0.0, "greatest": INCH * 3 / 32}


def test_a_lower_limit_follows_jcgm_106():
    # JCGM 106:2012, example of a breakdown voltage; inputs from memory, value computed.
    assert conformance_probability(509.7, 8.6, lower=490) == pytest.approx(0.989010, abs=5e-7)


def test_an_interval_follows_jcgm_106():
    # JCGM 106:2012, example of an interval; inputs from memory, value computed.
    answer = conformance_probability(13.6, 1.8, lower=12.5, upper=16.3)

    assert answer == pytest.approx(0.662630, abs=5e-7)


def test_a_pin_measured_with_a_micrometer_fits_its_bore():
    pin, bore = Measured(4.000 * INCH, 0.002 * INCH), Measured(4.005 * INCH, 0.002 * INCH)

    assert clearance_probability(pin, bore, **PIN_LIMITS) == pytest.approx(0.961450, abs=5e-7)


def test_a_rule_in_sixteenths_cannot_prove_the_pin_and_the_verdict_says_so():
    doubt = resolution_uncertainty(INCH / 16)
    pin, bore = Measured(4.0 * INCH, doubt), Measured(4.0625 * INCH, doubt)
    rule = Requirement("clearance", lower=0, upper=INCH * 3 / 32, source="49 CFR 230.96")

    answer = verdict([(rule, clearance(pin, bore))])

    assert answer.as_worn.product == pytest.approx(0.882511, abs=5e-7)
    assert (answer.fit, answer.characteristics[0].is_too_coarse) == (Fit.DOUBTFUL, True)
    assert answer.sentence == (
        "Doubtful: clearance is 1.59 ± 0.65 mm, too coarse a measurement to show that it fits."
    )


def test_the_best_that_the_rule_could_show_is_scipys_and_below_the_threshold():
    doubt = math.sqrt(2) * resolution_uncertainty(INCH / 16)
    half = INCH * 3 / 64 / doubt

    best = best_probability(doubt, lower=0, upper=INCH * 3 / 32)

    assert best == pytest.approx(stats.norm.cdf(half) - stats.norm.cdf(-half), rel=1e-12)
    assert best < FITS_AT_LEAST


@pytest.mark.parametrize("value", [-37.0, -20.0, -8.0, -1.0, 0.0, 0.3, 1.0, 5.0, 12.0, 30.0])
@pytest.mark.parametrize("width", [1e-6, 1e-3, 0.1, 1.0, 7.0])
def test_the_probability_is_scipys_even_in_the_tails(value, width):
    # scipy's own difference loses digits in narrow intervals, so its density is integrated there.
    near = min(abs(value), abs(value - width)) if not 0 <= value <= width else 0
    nodes, weights = np.polynomial.legendre.leggauss(60)
    places = 0.5 * width * (nodes + 1)
    log_scale = stats.norm.logpdf(near)
    area = weights @ np.exp(stats.norm.logpdf(places - value) - log_scale) * 0.5 * width

    answer = log_conformance_probability(value, 1.0, lower=0.0, upper=width)

    assert answer == pytest.approx(math.log(area) + log_scale, rel=1e-12, abs=1e-8)


@pytest.mark.parametrize("distance", [0.0, 1.0, 5.0, 10.0, 29.9, 30.1, 37.0, 100.0, 1e4, 1e8])
def test_one_limit_is_scipys_tail_however_far(distance):
    expected = stats.norm.logsf(distance)

    assert log_conformance_probability(0.0, 1.0, lower=distance) == pytest.approx(
        expected, rel=1e-12
    )
    assert log_conformance_probability(distance, 1.0, upper=0.0) == pytest.approx(
        expected, rel=1e-12
    )


def test_arrays_are_scipys_normal_distribution():
    random = np.random.default_rng(4)
    value, uncertainty = random.uniform(0, 200, 5000), random.uniform(0.01, 5, 5000)
    lower = value + uncertainty * random.normal(0, 3, 5000)
    upper = lower + random.uniform(0, 5, 5000)

    expected = stats.norm.cdf(upper, value, uncertainty) - stats.norm.cdf(lower, value, uncertainty)

    answer = conformance_probabilities(value, uncertainty, lower, upper)
    assert np.abs(answer - expected).max() < 1e-12


def test_the_joint_probability_agrees_with_a_million_draws():
    pieces = [(95.2, 0.2, 95.0, 95.5), (64.1, 0.5, 63.5, 65.0), (139.7, 0.1, 139.5, 139.9)]
    random, count = np.random.default_rng(5), 1_000_000
    inside = np.ones(count, dtype=bool)
    for value, uncertainty, lower, upper in pieces:
        draws = random.normal(value, uncertainty, count)
        inside &= (lower <= draws) & (draws <= upper)

    joint = joint_probability(
        conformance_probability(y, u, lower=low, upper=high) for y, u, low, high in pieces
    )

    error = math.sqrt(joint.product * (1 - joint.product) / count)
    assert abs(inside.mean() - joint.product) < 3 * error


def test_the_bounds_hold_when_characteristics_depend_on_each_other():
    # The three share one normal error completely, and then two of them against a third.
    shared = np.random.default_rng(6).normal(0, 1, 100_000)
    inside = [shared < 1.0, shared > -0.5, np.abs(shared) < 1.5]

    joint = joint_probability(float(part.mean()) for part in inside)

    together = np.logical_and.reduce(inside).mean()
    assert joint.lower_bound - 1e-12 <= together <= joint.upper_bound
    assert together != pytest.approx(joint.product, abs=0.01)


def test_a_driving_axle_half_an_inch_down_is_matched_by_its_limits_of_wear():
    # 49 CFR 230.98: an axle is condemned when 1/2 in below its original journal diameter.
    axle = Requirement(
        "journal diameter",
        lower=4.99 * INCH,
        upper=5.0 * INCH,
        worn_lower=4.5 * INCH,
        source="49 CFR 230.98",
    )

    worn = verdict([(axle, Measured(4.6 * INCH, 0.1))])
    condemned = verdict([(axle, Measured(4.4 * INCH, 0.1))])

    assert (worn.fit, worn.is_worn, condemned.fit) == (Fit.FITS, True, Fit.MISFIT)
