"""What to measure next, against closed forms and scipy's quadrature."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, stats

from catalog.reckoning.identity import (
    STEEL_RULE,
    Hypothesis,
    MarkEvidence,
    Tool,
    next_measurement,
    weigh,
)
from catalog.reckoning.limits import Limits
from tests.standards.identity_cases import (
    TINY,
    bore,
    boxes,
    from_drawn,
    hypotheses,
    reading_density,
)


def test_information_of_two_separate_ranges_is_their_whole_entropy():
    pair = hypotheses((Limits(60.0, 61.0), 1.0), (Limits(80.0, 81.0), 1.0))

    [best] = next_measurement(
        pair, [], tools={"bore": Tool("caliper", 0.1)}, something_else_share=TINY
    )

    assert best.information_bits == pytest.approx(1.0, abs=1e-6)


def test_information_of_overlapping_ranges_is_the_closed_form():
    # Two ranges of width 2 that share half: half of the readings settle it, half say nothing.
    pair = hypotheses((Limits(60.0, 62.0), 1.0), (Limits(61.0, 63.0), 1.0))

    [best] = next_measurement(
        pair, [], tools={"bore": Tool("gauge", 1e-6)}, something_else_share=TINY
    )

    assert best.information_bits == pytest.approx(0.5, abs=1e-4)


def test_information_of_two_normal_readings_agrees_with_scipy_quadrature():
    # Two exact sizes two uncertainties apart: the binary-input Gaussian channel.
    pair = hypotheses((Limits(60.0, 60.0), 1.0), (Limits(62.0, 62.0), 1.0))
    density = stats.norm(60.0, 1.0).pdf

    def loss(y):
        return density(y) * math.log2(1.0 + math.exp(2.0 * (y - 60.0) - 2.0))

    expected = 1.0 - integrate.quad(loss, 50.0, 70.0)[0]

    [best] = next_measurement(
        pair, [], tools={"bore": Tool("rule", 1.0)}, something_else_share=TINY
    )

    assert best.information_bits == pytest.approx(expected, abs=2e-4)


@settings(max_examples=15, deadline=None)
@given(
    st.floats(0.3, 4.0),
    st.floats(0.0, 6.0),
    st.floats(0.3, 4.0),
    st.floats(0.02, 2.0),
    st.floats(0.1, 0.9),
)
def test_information_agrees_with_scipy_quadrature(width, shift, other, uncertainty, prior):
    ranges = (60.0, 60.0 + width), (60.0 + shift, 60.0 + shift + other)
    first, second = (reading_density(*one, uncertainty) for one in ranges)

    def gain(y):
        terms = [(prior, first(y)), (1.0 - prior, second(y))]
        mixture = sum(p * f for p, f in terms)
        return sum(p * f * math.log2(f / mixture) for p, f in terms if f > 0.0)

    knots = sorted(
        edge + k * uncertainty for one in ranges for edge in one for k in (-8, -3, 0, 3, 8)
    )
    expected = sum(
        integrate.quad(gain, *pair, epsabs=1e-8)[0] for pair in itertools.pairwise(knots)
    )
    pair = hypotheses((Limits(*ranges[0]), prior), (Limits(*ranges[1]), 1.0 - prior))

    [best] = next_measurement(
        pair, [], tools={"bore": Tool("rule", uncertainty)}, something_else_share=TINY
    )

    assert best.information_bits == pytest.approx(expected, abs=2e-4)


def test_information_against_something_else_agrees_with_scipy_quadrature():
    one = hypotheses((Limits(60.0, 64.0), 1.0))
    inside = reading_density(60.0, 64.0, 0.3)

    def gain(y, is_near):
        broad = 1.0 / (y * math.log(1000.0))
        terms = [(0.75, inside(y) if is_near else 0.0), (0.25, broad)]
        mixture = sum(p * f for p, f in terms)
        return sum(p * f * math.log2(f / mixture) for p, f in terms if f > 0.0)

    pieces = [
        (5.0, 58.0, False),
        (58.0, 60.0, True),
        (60.0, 64.0, True),
        (64.0, 66.0, True),
        (66.0, 5000.0, False),
    ]
    expected = sum(integrate.quad(gain, a, b, args=(near,))[0] for a, b, near in pieces)

    [best] = next_measurement(one, [], tools={"bore": Tool("rule", 0.3)}, something_else_share=0.25)

    assert best.information_bits == pytest.approx(expected, abs=1e-4)


def test_information_is_the_average_fall_over_weighed_outcomes():
    # The forecast is checked against weighing each reading that might come.
    pair = hypotheses((Limits(60.0, 62.0), 2.0), (Limits(61.5, 64.0), 1.0))
    densities = [reading_density(60.0, 62.0, 0.4), reading_density(61.5, 64.0, 0.4)]

    def remaining(y):
        predictive = (2.0 * densities[0](y) + densities[1](y)) / 3.0
        return predictive * weigh(pair, [bore(y, 0.4)], something_else_share=TINY).doubt_bits

    [best] = next_measurement(
        pair, [], tools={"bore": Tool("rule", 0.4)}, something_else_share=TINY
    )
    expected = best.doubt_bits - integrate.quad(remaining, 57.0, 67.0, limit=200)[0]

    assert best.information_bits == pytest.approx(expected, abs=1e-4)


@settings(max_examples=60, deadline=None)
@given(boxes, st.floats(1e-6, 100.0))
def test_information_lies_between_zero_and_the_doubt(drawn, uncertainty):
    [best] = next_measurement(from_drawn(drawn), [], tools={"bore": Tool("rule", uncertainty)})

    assert 0.0 <= best.information_bits <= best.doubt_bits


@settings(max_examples=30, deadline=None)
@given(boxes, st.floats(0.02, 10.0))
def test_a_finer_tool_never_tells_less(drawn, uncertainty):
    coarse, fine = (
        next_measurement(from_drawn(drawn), [], tools={"bore": Tool("rule", u)})[0]
        for u in (2.0 * uncertainty, uncertainty)
    )

    assert fine.information_bits >= coarse.information_bits - 2e-3


@settings(max_examples=30, deadline=None)
@given(st.floats(10.0, 500.0), st.floats(1.0, 9.0), st.floats(1.0, 9.0))
def test_mirrored_hypotheses_are_worth_the_same(low, gap, width):
    limits = Limits(low, low + width), Limits(low + gap, low + gap + width)
    tools = {"bore": Tool("rule", 0.3)}

    ways = [
        next_measurement(hypotheses((a, 1.0), (b, 1.0)), [], tools=tools)[0].information_bits
        for a, b in (limits, limits[::-1])
    ]

    assert ways[0] == pytest.approx(ways[1], abs=1e-9)


def test_outcomes_are_the_closed_form_of_two_overlapping_ranges():
    # Weights 2 and 1 on 60…62 and 61…63 mm: the first leads to 62 mm, right in 4 of 5.
    pair = hypotheses((Limits(60.0, 62.0), 2.0), (Limits(61.0, 63.0), 1.0))
    tools = {"bore": Tool("gauge", 1e-6)}

    [best] = next_measurement(pair, [], tools=tools, something_else_share=TINY)

    first, second = best.outcomes
    assert (first.leader.key, second.leader.key) == ("h0", "h1")
    assert (first.probability, second.probability) == pytest.approx((5 / 6, 1 / 6), abs=1e-5)
    assert (first.leader_probability, second.leader_probability) == pytest.approx(
        (0.8, 1.0), abs=1e-5
    )
    [(_, border)], [(again, _)] = first.ranges, second.ranges
    assert (border, again) == pytest.approx((62.0, 62.0), abs=1e-4)


@pytest.mark.parametrize(("weight", "border"), [(1.0, 61.0), (math.exp(2.0), 62.0)])
def test_the_border_between_two_outcomes_is_where_the_odds_turn(weight, border):
    # Exact sizes 60 and 62 mm, u = 1 mm: equal where 2y = 122 + ln(weight) mm, since both
    # densities are normal. Readings are forecast about a sixth of u apart, and so is the border.
    pair = hypotheses((Limits(60.0, 60.0), weight), (Limits(62.0, 62.0), 1.0))

    [best] = next_measurement(
        pair, [], tools={"bore": Tool("rule", 1.0)}, something_else_share=TINY
    )

    ends = {one.leader.key: one.ranges for one in best.outcomes}
    assert ends["h0"][0][1] == ends["h1"][0][0] == pytest.approx(border, abs=0.1)


@pytest.mark.parametrize("weight", [1.0, 4.0])
def test_a_measurement_that_settles_it_removes_the_whole_doubt(weight):
    # Two ranges far apart: the information is H(h), of 1 bit or of 0.722 for 4 to 1.
    pair = hypotheses((Limits(60.0, 61.0), weight), (Limits(80.0, 81.0), 1.0))

    [best] = next_measurement(pair, [], tools={}, something_else_share=TINY)

    shares = [weight / (weight + 1.0), 1.0 / (weight + 1.0)]
    assert best.information_bits == pytest.approx(stats.entropy(shares, base=2), abs=1e-4)
    assert best.share_of_doubt == pytest.approx(1.0, abs=1e-4)


def test_the_measurement_that_tells_most_comes_first_and_none_is_asked_twice():
    limits = {
        "bore": (Limits(60.0, 62.0), Limits(61.0, 63.0)),
        "length": (Limits(100.0, 101.0), Limits(150.0, 151.0)),
        "width": (Limits(30.0, 31.0), Limits(30.0, 31.0)),
    }
    pair = [
        Hypothesis(key, key, characteristics={n: both[i] for n, both in limits.items()})
        for i, key in enumerate("ab")
    ]

    before = next_measurement(pair, [], tools={}, something_else_share=TINY)
    after = next_measurement(pair, [bore(61.5, 0.1)], tools={}, something_else_share=TINY)

    assert [one.characteristic for one in before] == ["length", "bore", "width"]
    assert [one.characteristic for one in after] == ["length", "width"]
    assert after[-1].information_bits == pytest.approx(0.0, abs=1e-6)


def test_what_is_known_already_counts_toward_what_a_measurement_would_tell():
    # After a mark of 9 to 1 the doubt is that of 0.9 and 0.1, and a decisive size removes just it.
    pair = hypotheses((Limits(60.0, 61.0), 1.0), (Limits(80.0, 81.0), 1.0))
    mark = MarkEvidence("ME 1?", {"h0": 0.9, "h1": 0.1}, otherwise=1e-9)

    [best] = next_measurement(pair, [mark], tools={}, something_else_share=TINY)

    assert best.information_bits == pytest.approx(stats.entropy([0.9, 0.1], base=2), abs=1e-4)


def test_looking_whether_a_feature_is_there_at_all_is_a_binary_channel():
    # One always has it, the other in 2 of 100 pieces, and a size that either could have.
    pair = [
        Hypothesis("box", "box", characteristics={"bore": None}),
        Hypothesis("hinge", "hinge", characteristics={}),
    ]

    [best] = next_measurement(pair, [], tools={}, something_else_share=TINY)

    conditional = 0.5 * stats.entropy([0.02, 0.98], base=2)
    expected = stats.entropy([0.51, 0.49], base=2) - conditional
    assert best.information_bits == pytest.approx(expected, abs=1e-6)
    assert {one.leader.key: one.probability for one in best.outcomes} == pytest.approx(
        {"box": 0.51, "hinge": 0.49}, abs=1e-6
    )


# A steel rule is read to the nearest millimeter: 1/√12 (JCGM 100, F.2.2.1, clause from memory).
def test_what_has_no_tool_of_its_own_is_read_with_a_rule_in_millimeters():
    assert STEEL_RULE.uncertainty == pytest.approx(1.0 / math.sqrt(12.0), rel=1e-5)
