"""Lengths as shown: exact where exact, marked where rounded, readable back."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.reckoning.length_texts import exact, format_gauge, format_inches, format_mm
from catalog.reckoning.lengths import parse_length


@pytest.mark.parametrize(
    ("mm", "text"),
    [
        (Fraction("95.25"), "3¾ in"),
        (95.25, "3¾ in"),
        (Decimal("33.734375"), "1\xa021⁄64 in"),
        (33.734375, "1\xa021⁄64 in"),
        (Fraction("1.5875"), "1⁄16 in"),
        (12.7, "½ in"),
        (355.6, "14 in"),
        (0, "0 in"),
        (0.127, "0.005 in"),
        (Decimal("8.466667"), "≈ 0.333 in"),
        (100, "≈ 3.937 in"),
        (76.19, "≈ 3.000 in"),
        (Fraction("-95.25"), "−3¾ in"),
        (-100, "≈ −3.937 in"),
    ],
)
def test_inches_are_fractions_where_exact_and_marked_where_rounded(mm, text):
    assert format_inches(mm) == text


def test_inches_keep_to_the_denominator_asked_for():
    assert format_inches(Fraction("33.734375"), denominator=16) == "≈ 1.328 in"
    assert format_inches(Decimal("8.466667"), denominator=3) == "⅓ in"


@pytest.mark.parametrize(
    ("mm", "resolution_mm", "text"),
    [
        (95.25, None, "95.3 mm"),
        (762, None, "762 mm"),
        (Decimal("609.600000"), None, "609.6 mm"),
        (95.25, Fraction("25.4") / 64, "95.3 mm"),
        (95.25, Fraction("0.0254"), "95.25 mm"),
        (95.25, 1, "95 mm"),
        (355, 0.1, "355.0 mm"),
        (355.6, 25.4, "356 mm"),
        (1, Fraction(1, 10**9), "1.000000 mm"),
        (-0.05, None, "−0.05 mm"),
    ],
)
def test_millimeters_have_the_decimals_that_the_resolution_supports(mm, resolution_mm, text):
    assert format_mm(mm, resolution_mm=resolution_mm) == text


@pytest.mark.parametrize(
    ("mm", "text"),
    [
        (600, "600 mm"),
        (Fraction("609.6"), "2 ft (609.6 mm)"),
        (Decimal("609.600000"), "2 ft (609.6 mm)"),
        (660.4, "2 ft 2 in (660.4 mm)"),
        (1435, "1435 mm"),
        (1435.1, "4 ft 8½ in (1435.1 mm)"),
        (127, "5 in (127 mm)"),
        (0, "0 in (0 mm)"),
    ],
)
def test_gauges_are_feet_and_inches_only_where_exactly_so(mm, text):
    assert format_gauge(mm) == text


@given(st.integers(0, 100_000))
def test_inches_in_sixty_fourths_read_back_to_the_same_length(sixty_fourths):
    mm = Fraction(sixty_fourths, 64) * Fraction("25.4")

    assert parse_length(format_inches(mm)).mm == mm


@given(st.decimals(0, 10_000, places=6), st.integers(0, 6))
def test_millimeters_read_back_to_within_half_of_the_last_place(mm, places):
    step = Fraction(1, 10**places)

    shown = parse_length(format_mm(mm, resolution_mm=step)).mm

    assert abs(shown - exact(mm)) <= step / 2
