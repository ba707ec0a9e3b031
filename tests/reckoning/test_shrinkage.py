"""Patterns and castings: there and back, order, and refusals."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.reckoning.shrinkage import (
    CONTRACTIONS,
    Metal,
    ShrinkageError,
    casting_from_pattern,
    casting_range,
    pattern_dimension,
    shrink_rule_reading,
)


@given(st.floats(1e-9, 1e9), st.sampled_from(Metal))
def test_a_pattern_for_a_casting_gives_that_casting(size, metal):
    assert casting_from_pattern(pattern_dimension(size, metal), metal) == pytest.approx(size)


@given(st.floats(1e-9, 1e9), st.sampled_from(Metal))
def test_castings_are_smaller_than_their_pattern_and_within_its_range(size, metal):
    least, greatest = casting_range(size, metal)

    assert least <= casting_from_pattern(size, metal) <= greatest < size


def test_every_metal_has_an_allowance_in_order_and_a_source():
    assert set(CONTRACTIONS) == set(Metal)
    for allowance in CONTRACTIONS.values():
        assert allowance.least <= allowance.usual <= allowance.greatest
        assert allowance.source


def test_a_shrink_rule_calls_longer_what_is_a_foot():
    assert shrink_rule_reading(304.8, Metal.STEEL) == pytest.approx(12.25 * 25.4)


@pytest.mark.parametrize("size", [0.0, -1.0, math.nan, math.inf])
@pytest.mark.parametrize("reckon", [pattern_dimension, casting_from_pattern, casting_range])
def test_a_size_that_cannot_be_cast_is_refused_in_words(reckon, size):
    with pytest.raises(ShrinkageError) as refusal:
        reckon(size, Metal.BRASS)

    assert str(refusal.value) == f"A size of {size:g} mm cannot be cast; give one above zero."
