"""The far tails of the normal distribution, against scipy."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, special

from catalog.reckoning.normal_tails import (
    log_density,
    log_mills_ratio,
    log_share_between,
    shares_below,
)


@given(st.floats(0.0, 1e9))
def test_log_mills_ratio_agrees_with_scipy(z):
    reference = math.log(math.sqrt(math.pi / 2.0) * special.erfcx(z / math.sqrt(2.0)))

    assert log_mills_ratio(z) == pytest.approx(reference, rel=1e-11, abs=1e-11)


@given(st.floats(-60.0, 60.0), st.floats(0.01, 60.0))
def test_share_between_agrees_with_scipy_log_ndtr(low, width):
    high = low + width
    # Seen from the nearer tail, where scipy loses no digits to subtraction.
    near, far = (high, low) if high <= -low else (-low, -high)
    above, below = special.log_ndtr(near), special.log_ndtr(far)
    reference = above + math.log(-math.expm1(below - above))

    assert log_share_between(low, high) == pytest.approx(reference, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("low", [-8.0, -1.0, 0.0, 3.0, 20.0])
@pytest.mark.parametrize("width", [1e-12, 1e-7, 1e-3, 1.0])
def test_share_between_agrees_with_scipy_quadrature(low, width):
    high = low + width
    middle = log_density(0.5 * (low + high))
    scaled, _ = integrate.quad(lambda z: math.exp(log_density(z) - middle), low, high)

    assert log_share_between(low, high) == pytest.approx(middle + math.log(scaled), rel=1e-5)


@pytest.mark.parametrize(
    ("low", "width"), [(0.0, 9e-4), (1.5, 6e-4), (20.0, 4.9e-5), (-20.0, 4.9e-5)]
)
def test_narrow_shares_follow_the_bend_of_the_density(low, width):
    # Gauss and Legendre's rule over so narrow a strip leaves nothing but rounding.
    nodes, weights = np.polynomial.legendre.leggauss(8)
    middle = log_density(low + 0.5 * width)
    heights = [math.exp(log_density(low + 0.5 * width * (1 + node)) - middle) for node in nodes]

    found = log_share_between(low, low + width) - middle - math.log(width)

    assert found == pytest.approx(math.log(0.5 * float(weights @ heights)), abs=2e-10)


@given(st.floats(-1e9, 1e9), st.floats(1e-6, 1e9))
def test_share_between_is_the_same_seen_from_the_other_side(low, width):
    assert log_share_between(low, low + width) == pytest.approx(
        log_share_between(-low - width, -low), rel=1e-12
    )


def test_share_between_stays_ordered_where_floats_end():
    shares = [log_share_between(far, far + 1.0) for far in (40.0, 1e3, 1e6, 1e9, 1e12)]

    assert shares == sorted(shares, reverse=True)
    assert all(math.isfinite(share) for share in shares)


def test_share_between_infinities_is_one():
    assert log_share_between(-math.inf, math.inf) == 0.0


def test_shares_below_agree_with_scipy_to_two_in_ten_million():
    z = np.linspace(-12.0, 12.0, 100_001)

    assert np.abs(shares_below(z) - special.ndtr(z)).max() < 2e-7
