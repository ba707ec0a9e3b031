"""Published limits as they are applied: fixed, from a size, from the gauge."""

from fractions import Fraction

import pytest

from catalog.reckoning.published_limits import (
    PUBLISHED,
    Ends,
    PublishedLimitError,
    Shape,
)


def test_wear_is_counted_from_the_original_size():
    ends = PUBLISHED["axle-wear"].ends(Fraction(635, 10), tolerance_mm=Fraction(4, 10))

    assert ends == Ends(Fraction(631, 10), Fraction(639, 10), worn_lower=Fraction(508, 10))


@pytest.mark.parametrize("base", [None, Fraction(0), Fraction(-5)])
def test_without_an_original_size_it_asks_for_one(base):
    with pytest.raises(PublishedLimitError, match="give that first"):
        PUBLISHED["axle-wear"].ends(base)


@pytest.mark.parametrize("code", ["axle-wear", "inside-gauge"])
def test_a_size_that_leaves_nothing_is_refused(code):
    with pytest.raises(PublishedLimitError, match="less than nothing"):
        PUBLISHED[code].ends(Fraction(10), tolerance_mm=Fraction(1, 10))


def test_every_limit_names_document_and_section_and_how_sure_it_is():
    for code, limit in PUBLISHED.items():
        assert limit.code == code
        assert limit.document.startswith(("49 CFR Part 230", "AAR"))
        assert limit.section
        assert limit.certainty in {"seen in the published text", "from memory; check the text"}
        if limit.shape in (Shape.IN_SERVICE, Shape.DIFFERENCE):
            assert limit.ends() != Ends()


@pytest.mark.parametrize("tolerance", [None, Fraction(0), Fraction(-1)])
@pytest.mark.parametrize("code", ["journal-a", "axle-wear"])
def test_a_size_without_a_tolerance_asks_for_one(code, tolerance):
    with pytest.raises(PublishedLimitError, match="how far a new piece may differ") as refusal:
        PUBLISHED[code].ends(Fraction(100), tolerance_mm=tolerance)

    assert refusal.value.of == "tolerance"


def test_wear_within_the_tolerance_is_refused():
    with pytest.raises(PublishedLimitError, match="Wear only widens the limits") as refusal:
        PUBLISHED["journal-a"].ends(tolerance_mm=Fraction(1), wear_mm=Fraction(1, 2))

    assert refusal.value.of == "wear"


def test_without_wear_the_limits_are_those_as_new():
    ends = PUBLISHED["journal-c"].ends(tolerance_mm=Fraction(1))

    assert ends == Ends(Fraction(126), Fraction(128))
