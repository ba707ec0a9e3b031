"""What a piece may be, against closed forms and scipy's quadrature and normal distribution."""

import itertools
import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy import integrate, stats

from catalog.reckoning.identity import (
    SOMETHING_ELSE_KEY,
    FactorEvidence,
    Hypothesis,
    MarkEvidence,
    weigh,
)
from catalog.reckoning.limits import Limits
from tests.standards.identity_cases import (
    TINY,
    bore,
    boxes,
    from_drawn,
    hypotheses,
    probabilities,
    sizes,
    tolerances,
    widths,
)


def test_posterior_of_two_point_hypotheses_is_the_logistic_of_their_distance():
    # Two exact sizes a and b, equal priors: odds exp(((y−b)² − (y−a)²) / 2u²).
    pair = hypotheses((Limits(60.0, 60.0), 1.0), (Limits(63.0, 63.0), 1.0))

    found = probabilities(weigh(pair, [bore(61.0, 1.0)], something_else_share=TINY))

    assert found["h0"] == pytest.approx(1.0 / (1.0 + math.exp((1.0 - 4.0) / 2.0)), rel=1e-9)


def test_posterior_between_the_limits_is_the_inverse_ratio_of_the_widths():
    # Far inside both ranges each density is 1/(U − L).
    pair = hypotheses((Limits(60.0, 70.0), 1.0), (Limits(50.0, 80.0), 1.0))

    found = probabilities(weigh(pair, [bore(65.0, 0.1)], something_else_share=TINY))

    assert found["h0"] == pytest.approx(0.75, rel=1e-9)


def test_posterior_against_something_else_is_the_log_uniform_ratio():
    # 1/(U − L) against 1/(y ln(5000/5)), with equal prior shares.
    one = hypotheses((Limits(60.0, 70.0), 1.0))

    found = probabilities(weigh(one, [bore(65.0, 0.1)], something_else_share=0.5))

    odds = (1.0 / 10.0) / (1.0 / (65.0 * math.log(1000.0)))
    assert found["h0"] == pytest.approx(odds / (1.0 + odds), rel=1e-9)


def test_lacking_the_feature_costs_a_factor_of_fifty():
    box, hinge = hypotheses((None, 1.0))[0], Hypothesis("hinge", "hinge")

    found = probabilities(weigh([box, hinge], [bore(65.0, 0.1)]))

    assert found["h0"] / found["hinge"] == pytest.approx(50.0, rel=1e-9)


def test_priors_follow_the_weights_before_any_evidence():
    pair = hypotheses((None, 3.0), (None, 1.0))

    found = probabilities(weigh(pair, [], something_else_share=0.2))

    assert found == pytest.approx({"h0": 0.6, "h1": 0.2, SOMETHING_ELSE_KEY: 0.2}, rel=1e-12)


@settings(max_examples=40, deadline=None)
@given(sizes, widths, tolerances, st.floats(-4.0, 4.0))
def test_posterior_agrees_with_scipy_quadrature(low, width, uncertainty, away):
    high = low + width + 0.01
    reading = 0.5 * (low + high) + away * uncertainty
    density = stats.norm(reading, uncertainty).pdf
    window = (reading - 9.0 * uncertainty, reading + 9.0 * uncertainty)
    inside, _ = integrate.quad(density, max(low, window[0]), min(high, window[1]), limit=200)
    broad, _ = integrate.quad(
        lambda x: density(x) / (x * math.log(1000.0)), max(5.0, window[0]), window[1]
    )
    expected = inside / (high - low) / broad
    one = [Hypothesis("h0", "box", characteristics={"bore": Limits(low, high)})]

    # A size below nothing is refused, and there is nothing to compare.
    assume(reading > 0.0)
    found = probabilities(weigh(one, [bore(reading, uncertainty)], something_else_share=0.5))

    # The broad density is taken as constant over the reading's own uncertainty.
    slack = 3.0 * (uncertainty / reading) ** 2 + 1e-7
    if reading - 3.0 * uncertainty > 5.0:
        assert found["h0"] / found[SOMETHING_ELSE_KEY] == pytest.approx(expected, rel=slack)


def test_one_sided_limits_spread_by_proportion_against_scipy_quadrature():
    one = hypotheses((Limits(60.0, None), 1.0))
    density = stats.norm(60.4, 0.5).pdf
    inside, _ = integrate.quad(lambda x: density(x) / (x * math.log(5000.0 / 60.0)), 60.0, 65.0)
    broad, _ = integrate.quad(lambda x: density(x) / (x * math.log(1000.0)), 56.0, 65.0)

    found = probabilities(weigh(one, [bore(60.4, 0.5)], something_else_share=0.5))

    assert found["h0"] / found[SOMETHING_ELSE_KEY] == pytest.approx(inside / broad, rel=1e-2)


@settings(max_examples=60, deadline=None)
@given(boxes, sizes, tolerances)
def test_order_of_evidence_and_of_hypotheses_changes_nothing(drawn, reading, uncertainty):
    candidates = from_drawn(drawn)
    evidence = [
        bore(reading, uncertainty),
        FactorEvidence("came off wagon 31", {"h0": 20.0}),
        MarkEvidence("mark ME 1?", {"h0": 0.3}, otherwise=0.01),
    ]
    expected = weigh(candidates, evidence)

    for shuffled in itertools.permutations(evidence):
        assert probabilities(weigh(candidates, shuffled)) == probabilities(expected)
    turned = weigh(candidates[::-1], evidence)
    assert probabilities(turned) == pytest.approx(probabilities(expected), rel=1e-9, abs=1e-300)


@settings(max_examples=60, deadline=None)
@given(boxes, sizes, tolerances)
def test_probabilities_add_up_to_one(drawn, reading, uncertainty):
    ranking = weigh(from_drawn(drawn), [bore(reading, uncertainty)])

    assert math.fsum(probabilities(ranking).values()) == pytest.approx(1.0, abs=1e-12)


@settings(max_examples=60, deadline=None)
@given(sizes, widths, tolerances, st.lists(st.floats(0.0, 500.0), min_size=2, max_size=6))
def test_probability_falls_with_the_distance_from_the_limits(low, width, uncertainty, steps):
    one = hypotheses((Limits(low, low + width), 1.0))
    odds = []

    for step in sorted(steps):
        ranking = weigh(one, [bore(low + width + step, uncertainty)], something_else_share=0.5)
        logs = {o.hypothesis.key: o.log_probability for o in ranking.opinions}
        # Something else becomes rarer with size in proportion, which is taken out here.
        broad = math.log(low + width + step)
        odds.append(logs["h0"] - logs[SOMETHING_ELSE_KEY] - broad)

    assert all(one >= other - 1e-9 for one, other in itertools.pairwise(odds))


@pytest.mark.parametrize("value", [1e-9, 1e-3, 64.0, 1e6, 1e9])
@pytest.mark.parametrize("uncertainty", [1e-9, 1.0, 1e9])
def test_extreme_readings_give_finite_ordered_answers(value, uncertainty):
    row = hypotheses(*((Limits(10.0 * k, 10.0 * k + 1.0), 1.0) for k in range(1, 9)), (None, 1.0))

    ranking = weigh(row, [bore(value, uncertainty)])

    logs = [opinion.log_probability for opinion in ranking.opinions]
    assert all(math.isfinite(log) for log in logs)
    assert logs == sorted(logs, reverse=True)
    assert math.fsum(map(math.exp, logs)) == pytest.approx(1.0, abs=1e-9)


def test_probabilities_below_the_smallest_float_keep_their_order():
    row = hypotheses(*((Limits(100.0 * k, 100.0 * k + 1.0), 1.0) for k in range(1, 6)))

    ranking = weigh(row, [bore(64.0, 0.1)])

    keys = [opinion.hypothesis.key for opinion in ranking.opinions]
    assert keys == [SOMETHING_ELSE_KEY, "h0", "h1", "h2", "h3", "h4"]
    assert ranking.opinions[-1].probability == 0.0
    assert ranking.opinions[-1].log_probability < math.log(1e-300)
