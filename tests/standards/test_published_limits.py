"""Limits as the published rules give them, in inches, worked to millimeters by hand."""

from fractions import Fraction

import pytest

from catalog.reckoning.published_limits import PUBLISHED, Ends

INCH = Fraction(254, 10)


# AAR RP-633, sizes of plain bearing journals; the letters are from memory.
@pytest.mark.parametrize(
    ("letter", "diameter"),
    [("a", "3.75"), ("b", "4.25"), ("c", "5"), ("d", "5.5"), ("e", "6"), ("f", "6.5")],
)
def test_journal_diameters(letter, diameter):
    assert PUBLISHED[f"journal-{letter}"].ends() == Ends(upper=Fraction(diameter) * INCH)


# The same table; that the length as new is the least of a used journal is common practice.
@pytest.mark.parametrize(
    ("letter", "length"), [("a", 7), ("b", 8), ("c", 9), ("d", 10), ("e", 11), ("f", 12)]
)
def test_journal_lengths(letter, length):
    limit = PUBLISHED[f"journal-{letter}-length"]

    assert limit.ends() == Ends(lower=length * INCH)
    assert limit.section == f"RP-633, size {letter.upper()}"


# 49 CFR 230.112(b): for a gauge of 30 in the flanges stand 26 1/2 to 26 7/8 in apart inside.
def test_inside_gauge_of_a_narrow_gauge():
    ends = PUBLISHED["inside-gauge"].ends(30 * INCH)

    assert ends == Ends(lower=Fraction("26.5") * INCH, upper=Fraction("26.875") * INCH)


# 49 CFR 230.98, 230.112(a) and (c), 230.113.
@pytest.mark.parametrize(
    ("code", "section", "lower", "upper"),
    [
        ("axle-wear", "49 CFR 230.98", Fraction(-1, 2), None),
        ("wheel-diameters", "49 CFR 230.112(a)", Fraction(-3, 32), Fraction(3, 32)),
        ("back-to-back", "49 CFR 230.112(c)", Fraction(-1, 4), Fraction(1, 4)),
        ("flange-thickness", "49 CFR 230.113", Fraction(15, 16), None),
        ("flange-height", "49 CFR 230.113", Fraction(1), Fraction(3, 2)),
        ("rim-thickness", "49 CFR 230.113", Fraction(1), None),
    ],
)
def test_federal_limits(code, section, lower, upper):
    limit = PUBLISHED[code]

    assert (limit.section, limit.lower, limit.upper) == (section, lower, upper)
