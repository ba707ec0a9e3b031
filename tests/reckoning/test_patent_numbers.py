"""US patent numbers and days: ranges, warnings and refusals."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.reckoning.patent_numbers import (
    LAST_NUMBER,
    PatentError,
    check_number_and_date,
    issue_year,
    number_range,
    read_number,
    year_range,
)

days = st.dates(date(1836, 7, 13), date(1974, 12, 31))


@given(st.integers(1, LAST_NUMBER))
def test_number_lies_in_the_range_of_its_year(number):
    assert number in year_range(issue_year(number))


@given(days)
def test_range_of_a_day_lies_within_its_year_and_is_not_empty(day):
    numbers, year = number_range(day), year_range(day.year)

    assert year.start <= numbers.start < numbers.stop <= year.stop


@given(days, st.integers(1, 400))
def test_a_later_day_never_has_lower_bounds(day, later):
    other = min(day + timedelta(days=later), date(1974, 12, 31))

    if other.weekday() == day.weekday() == 1:
        assert number_range(day).start <= number_range(other).start
        assert number_range(day).stop <= number_range(other).stop


@pytest.mark.parametrize("year", [1836, 1840, 1848, 1869, 1895, 1930, 1974])
def test_ranges_of_the_days_of_a_year_cover_the_year(year):
    first = max(date(year, 1, 1), date(1836, 7, 13))
    covered = set()
    for count in range((date(year, 12, 31) - first).days + 1):
        numbers = number_range(first + timedelta(days=count))
        covered.update(numbers)

    assert covered == set(year_range(year))


def test_day_between_issue_days_means_both_weeks():
    before, between, after = (number_range(date(1906, 5, day)) for day in (15, 18, 22))

    assert (between.start, between.stop) == (before.start, after.stop)


@pytest.mark.parametrize("written", [821_393, "821,393", "821393", "No. 821,393", "US 821 393"])
def test_number_is_read_as_people_write_it(written):
    assert read_number(written) == 821_393


@pytest.mark.parametrize(
    "written", ["", "D12,345", "RE 12,345", "88,92O", "?", "0", "-5", "1.5", "²"]
)
def test_number_with_letters_is_refused_in_words(written):
    with pytest.raises(PatentError, match="is not a patent number of figures alone"):
        read_number(written)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: issue_year(3_858_241), "No. 3,858,241 is later than the year table"),
        (lambda: year_range(1835), "covers 1836 to 1974, not 1835"),
        (lambda: year_range(1975), "covers 1836 to 1974, not 1975"),
        (lambda: number_range(date(1836, 7, 12)), "not numbered before 13 July 1836"),
    ],
)
def test_what_lies_outside_the_table_is_refused_in_words(call, message):
    with pytest.raises(PatentError, match=message):
        call()


@pytest.mark.parametrize(
    ("number", "issued", "beginnings"),
    [
        (821_393, date(1906, 5, 25), ["25 May 1906 was a Friday; US patents"]),
        (821_393, date(1905, 5, 23), ["No. 821,393 belongs to 1906 (808,618 to 839,798)"]),
        (821_393, date(1906, 1, 2), ["No. 821,393 is of 1906, but about 2 January numbers"]),
        (4_750, date(1846, 9, 10), []),
        ("D 5", date(1869, 4, 13), ["“D 5” is not a patent number"]),
        (88_929, date(1869, 4, 16), ["16 April 1869 was a Friday"]),
        (9_999_999, date(2018, 6, 19), ["No. 9,999,999 is later than the year table"]),
        (1, date(1836, 1, 1), ["US patents were not numbered before 13 July 1836."]),
    ],
)
def test_what_does_not_agree_is_told_as_a_warning(number, issued, beginnings):
    warnings = check_number_and_date(number, issued)

    assert len(warnings) == len(beginnings)
    assert all(map(str.startswith, warnings, beginnings))


def test_warning_says_when_its_year_is_from_memory():
    warned = (
        check_number_and_date(821_393, date(1905, 5, 23)),
        check_number_and_date(88_929, date(1870, 4, 12)),
    )

    assert [w.endswith("That bound of the table is from memory.") for (w,) in warned] == [
        True,
        False,
    ]


def test_tuesday_warning_names_the_rare_exceptions():
    (warning,) = check_number_and_date(821_393, date(1906, 5, 23))

    assert "some Christmas weeks between 1850 and 1880" in warning
    assert "summers of 1945 and 1970" in warning
