"""What to measure next, against closed forms and scipy's quadrature."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, stats

from catalog.reckoning.identity import Tool, next_measurement, weigh
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
