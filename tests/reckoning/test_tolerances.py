"""Limits as drawings write them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.reckoning.lengths import LengthError
from catalog.reckoning.tolerances import SizeLimits, parse_limits

INCH = Fraction("25.4")


def inches(lower, upper):
    return SizeLimits(Fraction(lower) * INCH, Fraction(upper) * INCH)


def mm(lower, upper):
    return SizeLimits(Fraction(lower), Fraction(upper))


@pytest.mark.parametrize(
    ("text", "limits"),
    [
        ("2 1/2 in +0 -1/16", inches("39/16", "5/2")),
        ("2 1/2 in + 0 − 1/16", inches("39/16", "5/2")),
        ("2½ in +1/64, -1/32", inches(Fraction(79, 32), Fraction(161, 64))),
        ("2-1/2 in -1/16 +0", inches("39/16", "5/2")),
        ('3 3/4" +1/32/-0', inches("15/4", "121/32")),
        ("1' 2 1/2\" ± 1/8", inches("115/8", "117/8")),
        ("63.5 mm ± 0.2", mm("63.3", "63.7")),
        ("63.5 ± 0.2 mm", mm("63.3", "63.7")),
        ("63.5 mm +/- 0.2 mm", mm("63.3", "63.7")),
        ("2 1/2 in +5 thou -0", inches("2.5", "2.505")),
        ("63.3 to 63.7 mm", mm("63.3", "63.7")),
        ("63.3–63.7 mm", mm("63.3", "63.7")),
        ("2 3/8 in to 2 1/2 in", inches("19/8", "5/2")),
    ],
)
def test_limits_are_read_exactly(text, limits):
    assert parse_limits(text) == limits


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "is not a size with limits"),
        ("2 1/2 in", "is not a size with limits"),
        ("2 1/2 +0 -1/16", "is not a size with limits"),
        ("3 5/4 in +0 -1/16", "not less than one"),
        ("64 to 63 mm", "upper limit below its lower limit"),
        ("2 1/2 in +0 -1/0", "over 0"),
        ("63 to 64", "has no unit"),
    ],
)
def test_limits_are_refused_in_words(text, words):
    with pytest.raises(LengthError, match=words):
        parse_limits(text)


@given(size=st.integers(100, 10_000), up=st.integers(0, 99), down=st.integers(0, 99))
def test_order_of_the_two_tolerances_does_not_matter(size, up, down):
    written = parse_limits(f"{size} mm +{up} -{down}")

    assert written == parse_limits(f"{size} mm -{down} +{up}") == mm(size - down, size + up)
