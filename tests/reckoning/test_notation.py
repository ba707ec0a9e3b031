"""Wheel arrangements and gauges: refusals, round trips, exactness."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.reckoning.notation import (
    GAUGES,
    NotationError,
    gauge_named,
    gauge_of,
    uic_to_whyte,
    whyte_to_uic,
)

carried = st.integers(0, 3).map(lambda axles: 2 * axles)
driven = st.integers(1, 7).map(lambda axles: 2 * axles)
units = st.builds(
    lambda first, middle, last: "-".join(map(str, [first, *middle, last])),
    carried,
    st.lists(driven, min_size=1, max_size=3),
    carried,
)
arrangements = st.lists(units, min_size=1, max_size=2).map("+".join)


@given(arrangements)
def test_every_uic_possibility_leads_back_to_the_one_whyte(whyte):
    possibilities = whyte_to_uic(whyte)

    assert {uic_to_whyte(uic) for uic in possibilities} == {whyte}
    assert len(set(possibilities)) == len(possibilities) >= 1


@pytest.mark.parametrize(
    ("written", "whyte"),
    [("C n2t", "0-6-0"), ("1’C1’", "2-6-2"), ("B'B'", "0-4-4-0"), ("Bo'Bo'", "0-4-4-0"), ("1A1", "2-2-2"),
     ("(1'C1')+(1'C1')", "2-6-2+2-6-2")],
)  # fmt: skip
def test_uic_is_read_with_its_additions(written, whyte):
    assert uic_to_whyte(written) == whyte


@pytest.mark.parametrize("written", ["0-4-0T", "0-4-0ST", "0-4-0 PT", " 0–4–0 ", "0-4-0wt"])
def test_whyte_is_read_with_its_additions(written):
    assert whyte_to_uic(written) == ("B",)


@pytest.mark.parametrize(
    "written", ["", "040", "0-4", "0-3-0", "2-0-2", "0-4-0X", "0-4-0+", "B", "0-99-0"]
)
def test_other_whyte_is_refused_in_words(written):
    with pytest.raises(NotationError, match=r"Whyte notation|cannot be"):
        whyte_to_uic(written)


@pytest.mark.parametrize("written", ["", "2'2'", "0-4-0", "1'1'B", "B?", "1", "B+", "oB"])
def test_other_uic_is_refused_in_words(written):
    with pytest.raises(NotationError, match="UIC notation"):
        uic_to_whyte(written)


def test_every_gauge_is_found_by_each_of_its_names_and_its_millimeters():
    for gauge in GAUGES:
        assert [gauge_named(name) for name in (gauge.name, *gauge.aliases)] == [gauge] * (
            1 + len(gauge.aliases)
        )
        assert gauge_of(gauge.mm) == gauge


def test_gauges_are_in_order_and_no_two_are_equal():
    widths = [gauge.mm for gauge in GAUGES]

    assert widths == sorted(set(widths))


def test_near_gauges_are_different_gauges():
    assert gauge_named("2 ft") != gauge_named("600 mm")
    assert gauge_of(Fraction("609.6")).name == "2 ft"
    assert gauge_of(Fraction("609.5")) is None


def test_gauge_name_may_carry_the_word_and_capitals():
    assert gauge_named(" 2 FT 6 IN gauge ").mm == 762


def test_unknown_gauge_is_refused_with_the_names():
    with pytest.raises(NotationError, match="not a gauge known by name; the names are 1 ft 3 in"):
        gauge_named("7 ft 14 in")
