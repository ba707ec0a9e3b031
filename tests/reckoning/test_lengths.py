"""Lengths: every way a workshop writes them, and every text that is refused in words."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.reckoning.lengths import UNITS, Length, LengthError, parse_length, why_no_reading

SAME = {
    "95.25": [
        '3 3/4"', "3-3/4 in", "3¾″", "3.75 in", "3 3/4 in.", "3 3⁄4 in", "3³⁄₄ in", "3 ¾ ins",
        "3–3/4 inches", "3 3 / 4 inch", "3\u00a03/4\u00a0in", "3\u20093/4 in", "3¾''", "3 & 3/4 in",
        "3 and 3/4 in", "３ ３／４ ｉｎ", "３.７５＂", " 3.75IN ", "3.750”", "3750 thou", "9.525 cm",
        "0.09525 m", "95.25 mm", "95.25mm.", "95.25 millimetres", "3¾ʺ", "3\u200b¾ in", "3 24/32 in",
    ],
    "368.3": [
        "1' 2 1/2\"", "1'-2 1/2\"", "1 ft 2 1/2 in", "1′ 2½″", "1’-2½”", "1ft2½in", "1 foot 2.5 inches",
        "1 ft. 2 1/2 in.", "1 ft, 2 1/2 in", "1' − 2 1/2''", "1´2½˝", "14½ in", "14 ½ “",
    ],
    "355.6": ['14"', "14 in", "14. in", "1' 2\"", "1 feet 2 in"],
    "355": ["355 mm", "355. mm", "35.5 cm", ".355 m", "355㎜", "355 millimeters", "35.5 centimetres"],
    "609.6": ["2'", "2 ft", "2.0 feet", "2 FT.", "24 in", "2' 0\""],
    "762": ["2' 6\"", "2½ ft", "2 1/2 feet", "2.5'", "30 in", "2ft 6in"],
    "914.4": ["3 ft", "3'", "0.9144 metre"],
    "12.7": [".5 in", "½ in", "1/2\"", "0.50 in"],
    "1.5875": ["⅟16 in", "1/16 in", "1⁄16″"],
    "0": ["0 in", "0.0 mm", "0/4 in"],
}  # fmt: skip

REFUSED = {
    "": "Type a length with its unit, such as 3 3/4 in or 95 mm.",
    "  \u00a0": "Type a length with its unit, such as 3 3/4 in or 95 mm.",
    "14": "“14” has no unit. Type 14 in, 14 ft or 14 mm.",
    "3,75 in": "“3,75 in” has a comma in the number. Type a point for decimals, such as 3.75 in, and "
    "leave out commas between thousands, such as 1435 mm.",
    "3/0 in": "“3/0 in” has a fraction over 0. Type one with a figure below it, such as 3/4 in.",
    "3 5/4 in": "“3 5/4 in” has the fraction 5/4, which is not less than one. Type the whole number "
    "first and then the fraction, such as 3 3/4 in.",
    "1' 14\"": "“1' 14\"” has 12 inches or more after the feet. Type less than 12 inches there, or "
    "inches alone, such as 26 in.",
    "−3 in": "“−3 in” is below zero. A length is measured from zero up: type it without the minus.",
    "5 x 9": "“5 x 9” is more than one length. Type one length, such as 5 in, and the other in its "
    "own field.",
    "about 3 in": "“about 3 in” says how sure the reading is as well. Type the length alone, such as "
    "3 3/4 in, and give the ± in its own field.",
    "3 yd": "“3 yd” has the unit “yd”, which is not known here. Type in, ft, mm, cm, m or thou.",
    "2' 6": "“2' 6” has no unit after the feet. Type it as 2' 6 in.",
    "1.5 ft 2 in": "“1.5 ft 2 in” has part of a foot and inches too. Type whole feet before the "
    "inches, such as 1 ft 6 in, or feet alone, such as 1.5 ft.",
    "a bit": "“a bit” is not a length. Type a number and its unit, such as 3 3/4 in, 1 ft 2 in or "
    "95 mm.",
    "1001 m" + "0" * 90: "That is too long for one length. Type only it, such as 3 3/4 in.",
    "1000001 m": "“1000001 m” is longer than 1000 km. Check the number and its unit.",
}

ALSO_REFUSED = [
    "1,435 mm", "3 4/4 in", "33/4 in", "1' 12\"", "1 ft 12.0 in", "-3 in", "- 3 in", "–3 in",
    "5 × 9 in", '5" x 9"', "5 by 9 in", "5ft by 9ft", "3 to 4 in", "3±1/16 in", "~3 in", "c. 3 in",
    "3-4 in", "1 435 mm", '3" 3/4', "1 m 20 cm", "3 in 2 ft", "3 . 5 in", "1e3 mm", "nan in",
    "inf mm", "٣ in", "½¾ in", "3..4 in", "1/2/3 in", "in", '"', "5² mm", "(3 in)", "3 mil", "2-6",
    "1 2 3 in", "#3 in", "3 3/4 in wide", "1½ ft 3 in", "=1+1 in", "0x10 in",
]  # fmt: skip


@pytest.mark.parametrize(("mm", "text"), [(mm, text) for mm in SAME for text in SAME[mm]])
def test_every_spelling_of_a_length_reads_the_same(mm, text):
    assert parse_length(text).mm == Fraction(mm)


@pytest.mark.parametrize(("text", "sentence"), REFUSED.items())
def test_a_refusal_says_what_to_type_instead(text, sentence):
    with pytest.raises(LengthError) as refusal:
        parse_length(text)

    assert str(refusal.value) == sentence


@pytest.mark.parametrize("text", ALSO_REFUSED)
def test_anything_but_one_plain_length_is_refused_naming_what_was_typed(text):
    with pytest.raises(LengthError) as refusal:
        parse_length(text)

    assert str(refusal.value).startswith(f"“{text}” ")


@pytest.mark.parametrize(
    ("text", "resolution_mm"),
    [
        ("3 3/4 in", Fraction("25.4") / 4),
        ("8/16 in", Fraction("25.4") / 16),
        ("3¾ in", Fraction("25.4") / 4),
        ("1 21/64 in", Fraction("25.4") / 64),
        ("1.250 in", Fraction("0.0254")),
        ("14 in", Fraction("25.4")),
        ("3 ft", Fraction("304.8")),
        ("2 ft 6 in", Fraction("25.4")),
        ("355 mm", Fraction(1)),
        ("35.5 cm", Fraction(1)),
        ("0.355 m", Fraction(1)),
        ("5 thou", Fraction("0.0254")),
    ],
)
def test_the_resolution_is_the_finest_step_that_was_typed(text, resolution_mm):
    assert parse_length(text).resolution_mm == resolution_mm


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [
        ("14", "in", "355.6"),
        ("3 3/4", "in", "95.25"),
        ("3 3/4.", "in", "95.25"),
        ("355", "mm", "355"),
        ("2", "ft", "609.6"),
        ("35.5", "cm", "355"),
        ("1.5", "m", "1500"),
        ('14"', "mm", "355.6"),
        ("355 mm", "in", "355"),
        ("2' 6", "in", "762"),
        ("2' 6", "ft", "762"),
    ],
)
def test_the_unit_of_the_field_serves_only_where_none_is_typed(text, unit, mm):
    assert parse_length(text, default_unit=unit).mm == Fraction(mm)


def test_a_bare_number_after_feet_is_asked_about_in_a_metric_field():
    with pytest.raises(LengthError, match="no unit after the feet"):
        parse_length("2' 6", default_unit="mm")


def test_an_unknown_unit_of_a_field_is_a_mistake_of_the_program():
    with pytest.raises(ValueError, match="default_unit is one of in, ft, mm, cm, m, thou"):
        parse_length("14", default_unit="inch")


def test_the_typed_text_is_kept_beside_the_length():
    assert parse_length(" 3¾″ ") == Length(Fraction("95.25"), Fraction("6.35"), "3¾″")


def test_two_gauges_9_6_mm_apart_are_not_one():
    assert parse_length("2 ft").mm - parse_length("600 mm").mm == Fraction("9.6")


@given(st.integers(0, 999), st.integers(1, 6), st.sampled_from([" ", "-", " - "]), st.data())
def test_whole_and_fraction_add_up(whole, power, joint, data):
    top = data.draw(st.integers(0, 2**power - 1))

    length = parse_length(f"{whole}{joint}{top}/{2**power} in")

    assert length.mm == (whole + Fraction(top, 2**power)) * Fraction("25.4")
    assert length.resolution_mm == Fraction("25.4") / 2**power


@given(st.decimals(0, 1000, places=4), st.sampled_from(sorted(UNITS)))
def test_a_plain_decimal_is_its_number_times_its_unit(number, unit):
    length = parse_length(f"{number:f} {unit}")

    assert (length.mm, length.resolution_mm) == (
        Fraction(number) * UNITS[unit],
        UNITS[unit] / 10_000,
    )


@given(st.text(max_size=90))
def test_any_text_is_a_length_or_a_refusal_in_a_sentence(text):
    answer = length_or_sentence(text)

    assert answer.mm >= 0 if isinstance(answer, Length) else answer.endswith(".")


@given(st.text("0123456789./-' \"¾½⁄,xinftcm", max_size=14))
def test_the_characters_of_lengths_in_any_order_are_read_or_refused(text):
    answer = length_or_sentence(text)

    assert answer.resolution_mm > 0 if isinstance(answer, Length) else answer.endswith(".")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("0 in", "is no size"),
        ("0.0000001 mm", "is finer than any tool reads"),
        ("1000000000 mm", "is 1000 km"),
        ("0.001 mm", ""),
        ("999999999 mm", ""),
    ],
)
def test_what_nobody_can_have_read_is_told(text, told):
    assert told in why_no_reading(parse_length(text))
    assert bool(told) == bool(why_no_reading(parse_length(text)))


def length_or_sentence(text):
    try:
        return parse_length(text)
    except LengthError as refusal:
        return str(refusal)
