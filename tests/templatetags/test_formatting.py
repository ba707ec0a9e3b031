"""Check lengths, quantities and dates as people read them."""

import datetime as dt
from decimal import Decimal
from fractions import Fraction

import pytest

from catalog.templatetags import formatting

UTC = dt.UTC


@pytest.mark.parametrize(
    ("number", "shown"),
    [
        (Decimal("2.50"), "2½"),
        (0.5, "½"),
        (Fraction(1, 3), "⅓"),
        (12, "12"),
        (Decimal("1.20"), "1.2"),
        (0, "0"),
        (None, ""),
    ],
)
def test_quantity_counts_in_fractions(number, shown):
    assert formatting.quantity(number) == shown


def test_lengths_are_shown_in_both_systems():
    assert formatting.inches(Fraction("95.25")) == "3¾ in"
    assert formatting.millimeters(Fraction("95.25")) == "95.3 mm"
    assert formatting.millimeters(355, 0.1) == "355.0 ± 0.1 mm"
    assert formatting.gauge_words(762) == "2 ft 6 in (762 mm)"


@pytest.mark.parametrize("shown", [formatting.inches, formatting.millimeters, formatting.day])
def test_nothing_recorded_is_shown_as_nothing(shown):
    assert shown(None) == ""


def test_day_reads_the_same_in_every_country():
    shown = formatting.day(dt.date(2026, 4, 5))

    assert shown == '<time datetime="2026-04-05">5 April 2026</time>'


def test_day_of_a_moment_is_the_day_at_the_shed(settings):
    settings.TIME_ZONE = "America/Denver"

    shown = formatting.day(dt.datetime(2026, 4, 5, 3, 0, tzinfo=UTC))

    assert shown == '<time datetime="2026-04-04">4 April 2026</time>'


def test_moment_carries_the_hour(settings):
    settings.TIME_ZONE = "UTC"

    shown = formatting.moment(dt.datetime(2026, 4, 5, 13, 7, tzinfo=UTC))

    assert shown == '<time datetime="2026-04-05T13:07+00:00">5 April 2026, 13:07</time>'


def test_moment_of_nothing_is_nothing():
    assert formatting.moment(None) == ""


@pytest.mark.parametrize(("edtf", "shown"), [("../1956-05", "before June 1956"), ("", "")])
def test_date_words_say_a_recorded_date(edtf, shown):
    assert formatting.date_words(edtf) == shown
