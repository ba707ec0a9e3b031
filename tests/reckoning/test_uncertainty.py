"""Measurements with their doubt: refusals, repeats, allowances and instruments."""

import math
from dataclasses import FrozenInstanceError
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.reckoning.lengths import parse_length
from catalog.reckoning.uncertainty import (
    INSTRUMENTS,
    Measured,
    UncertaintyError,
    add_allowance,
    agreement,
    chi_squared_tail,
    combine,
    rectangular,
    resolution_uncertainty,
    root_sum_square,
    take_reading,
    triangular,
)

NOT_AN_UNCERTAINTY = [0.0, -0.1, math.nan, math.inf]
readings = st.builds(Measured, st.floats(-1e9, 1e9), st.floats(1e-9, 1e9))


@pytest.mark.parametrize("uncertainty", NOT_AN_UNCERTAINTY)
@pytest.mark.parametrize(
    "act", [lambda u: Measured(95.0, u), resolution_uncertainty, rectangular, triangular]
)
def test_an_uncertainty_that_is_not_above_zero_is_refused_in_words(act, uncertainty):
    with pytest.raises(UncertaintyError) as refusal:
        act(uncertainty)

    assert str(refusal.value) == (
        f"The ± of a measurement must be more than 0 mm, and it is {uncertainty}. No reading is "
        "exact: give at least half of the finest division that was read."
    )


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_a_value_that_is_not_a_number_is_refused(value):
    with pytest.raises(UncertaintyError, match="plain number"):
        Measured(value, 0.1)


def test_a_measurement_cannot_be_changed():
    with pytest.raises(FrozenInstanceError):
        Measured(95.0, 0.1).value = 96.0


@pytest.mark.parametrize(
    ("measured", "text"),
    [
        (Measured(95.25, 0.1146), "95.25 ± 0.11 mm"),
        (Measured(95.25, 1.8), "95.3 ± 1.8 mm"),
        (Measured(95.25, 12.0), "95 ± 12 mm"),
        (Measured(95.25, 120.0), "95 ± 120 mm"),
        (Measured(-0.5, 0.005), "−0.500 ± 0.005 mm"),
    ],
)
def test_a_measurement_is_written_with_two_digits_of_doubt(measured, text):
    assert str(measured) == text


def test_equal_repeats_combine_to_their_mean_and_standard_error():
    combined = combine(Measured(10.0, 1.0), Measured(12.0, 1.0), Measured(11.0, 1.0))

    assert combined.value == 11.0
    assert combined.uncertainty == pytest.approx(1 / math.sqrt(3))


def test_a_finer_reading_weighs_more():
    combined = combine(Measured(10.0, 0.1), Measured(11.0, 1.0))

    assert combined.value == pytest.approx((10.0 * 100 + 11.0) / 101)


def test_repeats_that_scatter_more_than_stated_widen_the_answer():
    combined = combine(Measured(10.0, 0.1), Measured(14.0, 0.1))

    # s/√n of 10 and 14 is √8/√2 = 2.
    assert (combined.value, combined.uncertainty) == (12.0, pytest.approx(2.0))


def test_no_number_of_repeats_averages_away_what_they_share():
    step = resolution_uncertainty(0.5)

    combined = combine(*[Measured(10.0, step)] * 100, least_uncertainty=step)

    assert combined == Measured(10.0, step)


def test_nothing_to_combine_is_refused():
    with pytest.raises(UncertaintyError, match="give at least one"):
        combine()


@pytest.mark.parametrize("least", [-1.0, math.nan, math.inf])
def test_a_least_uncertainty_below_zero_is_refused(least):
    with pytest.raises(UncertaintyError, match="0 mm or more"):
        combine(Measured(1.0, 1.0), least_uncertainty=least)


def test_readings_one_division_apart_agree_and_two_apart_do_not():
    step = 25.4 / 16
    first, next_mark, second_mark = (
        Measured(95.25 + count * step, resolution_uncertainty(step)) for count in range(3)
    )

    assert agreement(first, next_mark).is_consistent
    assert not agreement(first, second_mark).is_consistent


def test_a_disagreement_names_the_two_readings_and_asks_to_measure_again():
    answer = agreement(Measured(66.0, 0.1), Measured(64.1, 0.1), Measured(64.2, 0.1))

    assert answer.sentence == (
        "The readings 64.1 ± 0.1 mm and 66.0 ± 0.1 mm differ by more than their uncertainty "
        "explains. Measure again, at the place shown, before relying on either."
    )


def test_an_agreement_says_what_the_readings_amount_to():
    answer = agreement(Measured(64.1, 0.1), Measured(64.1, 0.1))

    assert answer.sentence == "2 readings agree: 64.100 ± 0.071 mm."


def test_one_reading_has_nothing_to_disagree_with():
    answer = agreement(Measured(64.1, 0.1))

    assert (answer.is_consistent, answer.chance, answer.farthest) == (True, 1.0, None)
    assert answer.sentence == "One reading only: nothing to compare it with."


def test_readings_impossibly_far_apart_have_no_chance():
    assert agreement(Measured(-1e9, 1e-300), Measured(1e9, 1e-300)).chance == 0.0


def test_rust_on_the_outside_moves_the_value_and_widens_it():
    cleaned = add_allowance(Measured(100.0, 0.3), less=1.0)

    assert (cleaned.value, cleaned.uncertainty) == (99.5, pytest.approx(math.sqrt(0.09 + 0.25 / 3)))


def test_an_allowance_both_ways_only_widens():
    assert add_allowance(Measured(100.0, 0.3), less=1.0, more=1.0).value == 100.0


def test_no_allowance_changes_nothing():
    assert add_allowance(Measured(100.0, 0.3)) == Measured(100.0, 0.3)


@pytest.mark.parametrize("less", [-1.0, math.nan, math.inf])
def test_an_allowance_below_zero_is_refused(less):
    with pytest.raises(UncertaintyError, match="0 mm or more each way"):
        add_allowance(Measured(100.0, 0.3), less=less)


@pytest.mark.parametrize("part", [-1.0, math.nan, math.inf])
def test_parts_of_an_uncertainty_below_zero_are_refused(part):
    with pytest.raises(UncertaintyError, match="0 or more"):
        root_sum_square(1.0, part)


def test_a_reading_is_no_finer_than_its_text_nor_than_its_instrument():
    coarse_text = take_reading(parse_length("95 mm"), instrument=INSTRUMENTS["vernier-caliper"])
    coarse_instrument = take_reading(parse_length("95.250 mm"), instrument=INSTRUMENTS["eye"])
    text_alone = take_reading(parse_length("95.25 mm"))

    assert coarse_text.uncertainty == resolution_uncertainty(1)
    assert coarse_instrument.uncertainty == INSTRUMENTS["eye"].uncertainty_mm
    assert text_alone == Measured(95.25, resolution_uncertainty(Fraction(1, 100)))


@pytest.mark.parametrize("text", ["8 in", "8 1/2 in", "2 ft", "1' 2\""])
def test_inches_are_read_off_the_marks_of_a_named_rule(text):
    rule = INSTRUMENTS["rule-32"]

    assert take_reading(parse_length(text), instrument=rule).uncertainty == rule.uncertainty_mm


@pytest.mark.parametrize("text", ["8.5 in", "216 mm"])
def test_decimals_are_no_finer_than_they_are_written(text):
    length = parse_length(text)
    micrometer = INSTRUMENTS["micrometer"]

    coarse = take_reading(length, instrument=micrometer).uncertainty
    assert coarse == resolution_uncertainty(length.resolution_mm)


def test_every_instrument_has_a_doubt_no_finer_than_its_divisions_and_says_whence():
    for code, instrument in INSTRUMENTS.items():
        assert instrument.code == code
        assert instrument.uncertainty_mm >= resolution_uncertainty(instrument.resolution_mm)
        assert instrument.note.endswith("Common practice, no source.")


def test_the_pattern_makers_rule_warns_of_shrinkage():
    assert "shrinkage" in INSTRUMENTS["pattern-rule"].caution


@given(st.lists(readings, min_size=1, max_size=6), st.randoms())
def test_combining_stays_within_the_readings_and_ignores_their_order(measured, random):
    shuffled = random.sample(measured, len(measured))
    values = [one.value for one in measured]

    combined, other = combine(*measured), combine(*shuffled)

    assert min(values) <= combined.value <= max(values)
    assert other.value == pytest.approx(combined.value, rel=1e-9, abs=1e-6)
    assert agreement(*shuffled).chance == pytest.approx(agreement(*measured).chance, abs=1e-6)


@given(readings, readings)
def test_a_second_reading_never_promises_less_than_its_scatter_nor_worsens_agreement(one, other):
    combined = combine(one, other)

    assert combined.uncertainty >= 0.7 * min(one.uncertainty, other.uncertainty)
    assert 0.0 <= agreement(one, other).chance <= 1.0


@given(readings, st.floats(0, 1e6), st.floats(0, 1e6))
def test_an_allowance_never_makes_a_reading_surer(measured, less, more):
    assert add_allowance(measured, less=less, more=more).uncertainty >= measured.uncertainty


@given(st.floats(0, 1e4), st.floats(0, 1e4), st.integers(1, 20))
def test_the_chance_falls_as_the_scatter_grows(first, second, degrees):
    small, large = sorted((first, second))

    assert chi_squared_tail(large, degrees) <= chi_squared_tail(small, degrees) + 1e-12
