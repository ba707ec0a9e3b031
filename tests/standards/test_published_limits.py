"""Limits as the published rules give them, in inches, worked to millimeters by hand."""

from fractions import Fraction

import pytest

from catalog.reckoning.conformance import Fit, Requirement, verdict
from catalog.reckoning.published_limits import PUBLISHED, Ends, PublishedLimitError
from catalog.reckoning.uncertainty import INSTRUMENTS, Measured

INCH = Fraction(254, 10)
# How exactly a journal is turned: common practice, no source.
SIXTY_FOURTH = INCH / 64


# AAR RP-633, sizes of plain bearing journals; the letters are from memory.
@pytest.mark.parametrize(
    ("letter", "diameter"),
    [("a", "3.75"), ("b", "4.25"), ("c", "5"), ("d", "5.5"), ("e", "6"), ("f", "6.5")],
)
def test_journal_diameters(letter, diameter):
    limit, size = PUBLISHED[f"journal-{letter}"], Fraction(diameter) * INCH

    ends = limit.ends(tolerance_mm=SIXTY_FOURTH, wear_mm=INCH / 2)

    assert (limit.lower, limit.upper) == (Fraction(diameter), Fraction(diameter))
    assert ends == Ends(size - SIXTY_FOURTH, size + SIXTY_FOURTH, worn_lower=size - INCH / 2)


# The same table; that a journal wears longer and never shorter is common practice, no source.
@pytest.mark.parametrize(
    ("letter", "length"), [("a", 7), ("b", 8), ("c", 9), ("d", 10), ("e", 11), ("f", 12)]
)
def test_journal_lengths(letter, length):
    limit, size = PUBLISHED[f"journal-{letter}-length"], length * INCH

    ends = limit.ends(tolerance_mm=SIXTY_FOURTH, wear_mm=INCH / 8)

    assert ends == Ends(size - SIXTY_FOURTH, size + SIXTY_FOURTH, worn_upper=size + INCH / 8)
    assert limit.section == f"RP-633, size {letter.upper()}"


# JCGM 106:2012, 7.2 (clause from memory): a value on its limit conforms with probability 1/2.
def test_a_size_is_not_a_limit_so_its_tolerance_is_asked():
    with pytest.raises(PublishedLimitError, match="gives a size and no tolerance"):
        PUBLISHED["journal-a"].ends()
    one_sided = Requirement("diameter", upper=95.25)
    assert verdict([(one_sided, Measured(95.25, 0.03))]).as_worn.product == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("inches", "fit", "is_worn"),
    [
        ("3.75", Fit.FITS, False),
        ("3.375", Fit.FITS, True),
        ("3.85", Fit.MISFIT, False),
        ("3", Fit.MISFIT, False),
        ("2", Fit.MISFIT, False),
    ],
)
def test_a_journal_of_just_the_size_fits_and_a_smaller_size_does_not(inches, fit, is_worn):
    caliper = INSTRUMENTS["vernier-caliper"].uncertainty_mm
    ends = PUBLISHED["journal-a"].ends(tolerance_mm=SIXTY_FOURTH, wear_mm=INCH / 2)
    given = (ends.lower, ends.upper, ends.worn_lower, ends.worn_upper)
    limits = [None if end is None else float(end) for end in given]

    found = verdict(
        [(Requirement("diameter", *limits), Measured(float(Fraction(inches) * INCH), caliper))]
    )

    assert (found.fit, found.is_worn) == (fit, is_worn)


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


# 49 CFR 230.113 lists what may not be continued in service (wording from memory): limits of wear.
def test_limits_of_wheels_in_service_are_limits_of_wear():
    ends = PUBLISHED["flange-height"].ends()

    assert ends == Ends(worn_lower=INCH, worn_upper=Fraction(3, 2) * INCH)
