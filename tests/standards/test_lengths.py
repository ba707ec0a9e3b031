"""Lengths against the definition of the inch and against named gauges."""

from fractions import Fraction

import pytest

from catalog.reckoning.lengths import UNITS, format_gauge, parse_length

# Exact from 1 in = 25.4 mm; the names of the gauges are common practice, no source.
GAUGES_MM = {
    "2 ft": "609.6",
    "600 mm": "600",
    "2 ft 2 in": "660.4",
    "2 ft 6 in": "762",
    "3 ft": "914.4",
    "1 m": "1000",
    "3 ft 6 in": "1066.8",
    "4 ft 8 1/2 in": "1435.1",
}
# Plain bearing journals, diameter × length: AAR RP-633; the letters and A to C from memory.
JOURNALS_IN = {"3 3/4": "95.25", "4 1/4": "107.95", "5 1/2": "139.7", "6 1/2": "165.1"}


def test_the_inch_is_exactly_25_4_mm():
    # NBS Circular 572, addendum: from 1 July 1959 one inch is 2.54 centimeters exactly.
    assert (UNITS["in"], UNITS["ft"]) == (Fraction(254, 10), Fraction(3048, 10))


@pytest.mark.parametrize(("text", "mm"), GAUGES_MM.items())
def test_gauges_are_exact(text, mm):
    assert parse_length(text).mm == Fraction(mm)


def test_eight_gauges_stay_eight_when_shown():
    shown = {format_gauge(parse_length(text).mm) for text in GAUGES_MM}

    assert len(shown) == len(GAUGES_MM)


@pytest.mark.parametrize(("text", "mm"), JOURNALS_IN.items())
def test_journal_diameters_are_exact(text, mm):
    assert parse_length(text, default_unit="in").mm == Fraction(mm)


def test_narrow_gauge_wheels_stand_as_49_cfr_230_112_b_says():
    # 49 CFR 230.112(b): inside flanges, gauge less 3 1/2 in to gauge less 3 1/8 in; for 30 in
    # gauge 26 1/2 to 26 7/8 in.
    gauge = parse_length("2 ft 6 in").mm

    least, greatest = gauge - parse_length("3 1/2 in").mm, gauge - parse_length("3 1/8 in").mm

    assert (least, greatest) == (parse_length("26½ in").mm, parse_length("26⅞ in").mm)
