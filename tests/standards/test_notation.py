"""Wheel arrangements and gauges against what is in print."""

from fractions import Fraction

import pytest

from catalog.reckoning.notation import gauge_named, uic_to_whyte, whyte_to_uic


@pytest.mark.parametrize(
    ("whyte", "uic"),
    [
        # 0-4-0 and 4-6-2 as printed in tables of both notations; the rest from memory.
        ("0-4-0", ("B",)),
        ("4-6-2", ("2'C1'",)),
        ("0-6-0", ("C",)),
        ("0-8-0", ("D",)),
        ("0-4-2", ("B1'", "B1")),
        ("2-4-0", ("1'B", "1B")),
        ("2-6-0", ("1'C",)),
        ("2-8-0", ("1'D",)),
        ("2-8-2", ("1'D1'",)),
        ("4-4-0", ("2'B",)),
    ],
)
def test_wheel_arrangement_agrees_in_both_notations(whyte, uic):
    assert whyte_to_uic(whyte) == uic
    assert [uic_to_whyte(one) for one in uic] == [whyte] * len(uic)


@pytest.mark.parametrize(
    ("name", "mm"),
    # Exact from 1 in = 25.4 mm (National Bureau of Standards, 1 July 1959).
    [("2 ft", "609.6"), ("600 mm", "600"), ("2 ft 2 in", "660.4"), ("2 ft 6 in", "762"),
     ("3 ft", "914.4"), ("metre", "1000"), ("3 ft 6 in", "1066.8"), ("4 ft 8 1/2 in", "1435.1")],
)  # fmt: skip
def test_gauge_is_exact(name, mm):
    assert gauge_named(name).mm == Fraction(mm)
