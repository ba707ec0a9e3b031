"""Limits written as a size with its tolerance."""

from decimal import Decimal

import pytest

from catalog.reckoning.limit_texts import toleranced
from catalog.reckoning.tolerances import parse_limits


@pytest.mark.parametrize(
    ("lower", "upper", "words"),
    [
        (Decimal("95.25"), Decimal("95.25"), "95.25 mm (3¾ in)"),
        (Decimal("94.65625"), Decimal("95.84375"), "95.25 ± 0.59 mm (3¾ in)"),
        (Decimal("63.5"), None, "at least 63.5 mm (2½ in)"),
        (None, Decimal("63.5"), "at most 63.5 mm (2½ in)"),
        (None, None, ""),
    ],
)
def test_limits_in_words(lower, upper, words):
    assert toleranced(lower, upper) == words


def test_what_is_written_reads_back_as_the_same_limits():
    written = toleranced(Decimal("63.5"), Decimal("64.5")).partition(" (")[0]

    read = parse_limits(written)

    assert (read.lower_mm, read.upper_mm) == (63.5, 64.5)
