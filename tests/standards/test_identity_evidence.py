"""Each kind of evidence against Bayes' theorem worked by hand and scipy's densities."""

import math

import pytest
from scipy import integrate, stats

from catalog.reckoning.identity import (
    SOMETHING_ELSE_KEY,
    AbsentEvidence,
    FactorEvidence,
    Hypothesis,
    MarkEvidence,
    MeasuredEvidence,
    came_off,
    prior_weight,
    same_lot,
    weigh,
)
from catalog.reckoning.limits import Limits
from catalog.reckoning.uncertainty import Measured
from tests.standards.identity_cases import TINY, bore, hypotheses, probabilities

PAIR = [
    Hypothesis("e", "class E box", "box", "E", 3.0, {"bore": Limits(60.0, 62.0)}),
    Hypothesis("k", "class K box", "box", "K", 1.0, {"bore": Limits(61.0, 65.0)}),
]


def odds(hypotheses, evidence, one="e", other="k"):
    found = probabilities(weigh(hypotheses, evidence, something_else_share=0.2))
    return found[one] / found[other]


# Bayes' theorem in odds: those before, 3 to 1, times the factor of the evidence.
@pytest.mark.parametrize(
    ("evidence", "factor"),
    [
        (MarkEvidence("ME 1?", {"e": 0.3}, otherwise=0.01), 30.0),
        (FactorEvidence("painted gray", {"e": 1e-6, "k": 1e-3}), 1e-3),
        (came_off("wagon 31", "E", PAIR), 20.0),
        (came_off("engine 2", "K", PAIR), 1 / 20.0),
        (same_lot("the pallet", ["K"], PAIR), 1 / 3.0),
        (AbsentEvidence("bore"), 1.0),
    ],
)
def test_stated_factors_multiply_the_odds(evidence, factor):
    assert odds(PAIR, [evidence]) == pytest.approx(3.0 * factor, rel=1e-12)


@pytest.mark.parametrize(
    "evidence",
    [MarkEvidence("ME 1?", {"e": 0.3}, otherwise=0.01), came_off("wagon 31", "E", PAIR)],
)
def test_something_else_has_the_weight_of_what_is_not_named(evidence):
    assert odds(PAIR, [evidence], "k", SOMETHING_ELSE_KEY) == pytest.approx(1.0, rel=1e-12)


# A feature is missing on 2 of 100 pieces that should have it; of anything else nothing is known.
def test_a_missing_feature_tells_against_those_only_that_should_have_it():
    hinge = Hypothesis("hinge", "hinge")

    assert odds([*PAIR, hinge], [AbsentEvidence("bore")], "hinge", "e") == pytest.approx(50.0 / 3.0)
    assert odds([*PAIR, hinge], [AbsentEvidence("bore")], "hinge", SOMETHING_ELSE_KEY) == (
        pytest.approx(odds([*PAIR, hinge], [], "hinge", SOMETHING_ELSE_KEY))
    )


@pytest.mark.parametrize("uncertainty", [0.05, 0.5, 3.0])
def test_an_exact_size_against_a_range_is_scipys_density_against_its_share(uncertainty):
    # φ((y − a)/u)/u against (Φ((U − y)/u) − Φ((L − y)/u))/(U − L).
    pair = hypotheses((Limits(62.0, 62.0), 1.0), (Limits(60.0, 66.0), 1.0))
    reading = stats.norm(62.1, uncertainty)
    expected = reading.pdf(62.0) / ((reading.cdf(66.0) - reading.cdf(60.0)) / 6.0)

    assert odds(pair, [bore(62.1, uncertainty)], "h0", "h1") == pytest.approx(expected, rel=1e-9)


# One limit: even by proportion from there out to 5000 mm, or down to 5 mm or a tenth of it.
@pytest.mark.parametrize(
    ("limits", "ends", "y"),
    [
        (Limits(None, 80.0), (5.0, 80.0), 30.0),
        (Limits(None, 20.0), (2.0, 20.0), 10.0),
        (Limits(None, 80.0), (5.0, 80.0), 79.9),
        (Limits(60.0, None), (60.0, 5000.0), 300.0),
        (Limits(900.0, None), (900.0, 9000.0), 1000.0),
        (None, (5.0, 5000.0), 30.0),
    ],
)
def test_an_open_side_is_spread_by_proportion_as_scipy_integrates_it(limits, ends, y):
    pair = hypotheses((limits, 1.0), (Limits(1.0, 9001.0), 1.0))
    least, greatest = ends
    reading = stats.norm(y, 0.2)
    span = math.log(greatest / least)
    expected, _ = integrate.quad(
        lambda x: reading.pdf(x) / (x * span), max(least, y - 2), min(greatest, y + 2), points=[y]
    )

    found = odds(pair, [bore(y, 0.2)], "h0", "h1")

    assert found == pytest.approx(expected * 9000.0, rel=2e-3)


# The prior is the number of places, and half of one for what has none.
@pytest.mark.parametrize(("places", "other", "expected"), [(8, 2, 4.0), (0, 1, 0.5), (5, 0, 10.0)])
def test_priors_are_places_with_a_floor(places, other, expected):
    pair = hypotheses((None, prior_weight(places)), (None, prior_weight(other)))

    assert odds(pair, [], "h0", "h1") == pytest.approx(expected, rel=1e-12)


def test_factors_of_each_hypothesis_are_the_logarithm_of_its_odds_against_its_rival():
    three = [*PAIR, Hypothesis("b", "class B box", "box", "B", 2.0, {"bore": Limits(58.0, 61.0)})]
    ranking = weigh(three, [bore(60.9, 0.3), came_off("wagon 31", "E", three)])
    first, second = ranking.opinions[:2]

    for one in ranking.opinions:
        rival = second if one == first else first
        assert {factor.rival for factor in one.factors} == {rival.hypothesis}
        assert math.fsum(factor.log_times for factor in one.factors) == pytest.approx(
            math.log(one.probability / rival.probability), rel=1e-9
        )


# A likelihood that is the same under every hypothesis drops out of Bayes' theorem.
@pytest.mark.parametrize(
    "useless",
    [
        MeasuredEvidence("thread pitch", Measured(3.0, 0.1)),
        FactorEvidence("found on a Tuesday", {}, otherwise=0.3),
        bore(61.5, 1e9),
    ],
)
def test_useless_evidence_changes_no_probability(useless):
    alike = [
        Hypothesis(key, key, prior_weight=weight, characteristics={"bore": None})
        for key, weight in (("e", 3.0), ("k", 1.0))
    ]

    assert probabilities(weigh(alike, [useless])) == pytest.approx(
        probabilities(weigh(alike, [])), rel=1e-9
    )


def test_evidence_too_unlikely_for_any_float_keeps_the_odds():
    # Two hundred marks, each one in a million for either, leave 10⁻¹²⁰⁰ and odds of 3 to 1.
    marks = [MarkEvidence(f"mark {i}", {"e": 1e-6, "k": 1e-6}, otherwise=1e-12) for i in range(200)]
    found = {one.hypothesis.key: one.log_probability for one in weigh(PAIR, marks).opinions}

    assert found["e"] - found["k"] == pytest.approx(math.log(3.0), rel=1e-9)
    assert found[SOMETHING_ELSE_KEY] == pytest.approx(
        math.log(0.1 / 0.9) - 200 * math.log(1e6), rel=1e-9
    )


# H = −Σ p log₂ p (Shannon 1948): scipy's entropy in base 2.
def test_doubt_is_scipys_entropy():
    ranking = weigh(PAIR, [bore(61.5, 0.4)], something_else_share=TINY)

    expected = stats.entropy(list(probabilities(ranking).values()), base=2)
    assert ranking.doubt_bits == pytest.approx(expected, rel=1e-9)
