"""Contraction of castings, against shrink rules and lists as they were published."""

import pytest

from catalog.reckoning.shrinkage import CONTRACTIONS, Metal, casting_range, pattern_dimension


# Shop Practice, volume 2, Shrinkage Rules: rules of nominally 24 in and 12 in.
@pytest.mark.parametrize(
    ("metal", "nominal_in", "true_in"),
    [
        (Metal.GRAY_IRON, 24.0, 24.25),
        (Metal.BRASS, 24.0, 24.375),
        (Metal.GRAY_IRON, 12.0, 12.125),
        (Metal.BRASS, 12.0, 12.1875),
    ],
)
def test_pattern_is_as_long_as_the_shrink_rule(metal, nominal_in, true_in):
    assert pattern_dimension(nominal_in * 25.4, metal) == pytest.approx(true_in * 25.4, rel=1e-12)


# A. Sellens, Stanley Folding Rules, as quoted by others: shrinkage in inches per foot.
@pytest.mark.parametrize(
    ("metal", "per_foot_in"),
    [
        (Metal.GRAY_IRON, 1 / 8),
        (Metal.BRASS, 3 / 16),
        (Metal.ALUMINUM, 3 / 16),
        (Metal.STEEL, 1 / 4),
    ],
)
def test_usual_allowance_is_the_published_one(metal, per_foot_in):
    assert float(CONTRACTIONS[metal].usual) * 12.0 == per_foot_in


# W. H. Dooley, Applied Science for Metal Workers, section 426: inches per foot.
@pytest.mark.parametrize(
    ("metal", "per_foot_in"),
    [
        (Metal.GRAY_IRON, 3 / 32),
        (Metal.STEEL, 3 / 16),
        (Metal.BRASS, 3 / 16),
        (Metal.BRONZE, 5 / 32),
        (Metal.ALUMINUM, 7 / 32),
    ],
)
def test_range_of_castings_holds_the_other_published_list(metal, per_foot_in):
    least, greatest = casting_range(1000.0, metal)
    by_the_list = 1000.0 / (1.0 + per_foot_in / 12.0)

    assert least - 1e-9 <= by_the_list <= greatest + 1e-9


# Rounded percentages of a foundry chart: gray iron 1, cast steel 2, brass and bronze 1.5.
@pytest.mark.parametrize(
    ("metal", "percent"),
    [(Metal.GRAY_IRON, 1.0), (Metal.STEEL, 2.0), (Metal.BRASS, 1.5), (Metal.BRONZE, 1.5)],
)
def test_usual_allowance_agrees_with_the_percentages_of_a_chart(metal, percent):
    assert 100.0 * float(CONTRACTIONS[metal].usual) == pytest.approx(percent, abs=0.1)
