"""Country and kind codes in words, and British numbers by year."""

from datetime import date

import pytest

from catalog.reckoning.patent_codes import (
    british_number,
    british_numbering,
    country_in_words,
    is_user_assigned,
    kind_in_words,
)
from catalog.reckoning.patent_numbers import PatentError


def test_british_numbers_of_two_years_are_different_numbers():
    assert british_number(4321, 1889) != british_number(4321, 1890)
    assert british_number(123_456, 1918) == british_number(123_456)


@pytest.mark.parametrize(
    ("number", "year", "message"),
    [
        (4321, None, "needs its year"),
        (4321, 1916, "belongs to a year before 1916"),
        (123_456, 1915, "No British year before 1916 reached"),
        (0, 1889, "numbered from 1"),
    ],
)
def test_british_number_that_does_not_agree_with_its_year_is_refused(number, year, message):
    with pytest.raises(PatentError, match=message):
        british_number(number, year)


@pytest.mark.parametrize(
    ("year", "words"),
    [(1851, "one series"), (1852, "within the year"), (1915, "within the year"), (1916, "100,001")],
)
def test_british_numbering_is_told_for_each_period(year, words):
    assert words in british_numbering(year)


@pytest.mark.parametrize(
    ("code", "expected"),
    [
        ("XZ", True),
        ("XN", False),
        ("XX", False),
        ("US", False),
        ("QL", False),
        ("XZZ", False),
        ("X1", False),
    ],
)
def test_user_assigned_codes_are_told_from_those_of_the_standard(code, expected):
    assert is_user_assigned(code) is expected


@pytest.mark.parametrize("code", ["", "U", "QQQ", "AB1", "XYZ"])
def test_other_country_codes_are_refused(code):
    with pytest.raises(PatentError, match=r"WIPO ST\.3"):
        country_in_words(code)


@pytest.mark.parametrize(
    ("country", "kind", "issued", "words"),
    [
        ("US", "A", date(1881, 6, 14), "patent"),
        ("us", "b1", date(1990, 1, 2), "reexamination certificate, first"),
        ("US", "B1", date(2001, 1, 2), "patent, application not published before"),
        ("US", "S", None, "design patent"),
        ("US", "S1", None, "design patent"),
        ("GB", "A", None, "patent, first publication"),
        ("DE", "C", None, "patent, third publication"),
        ("XZ", "U1", None, "utility model, first publication"),
    ],
)
def test_kind_code_is_told_in_the_words_of_its_country_and_time(country, kind, issued, words):
    assert kind_in_words(country, kind, issued) == words


@pytest.mark.parametrize("kind", ["", "1", "A12", "AB", "?"])
def test_other_kind_codes_are_refused(kind):
    with pytest.raises(PatentError, match=r"WIPO ST\.16"):
        kind_in_words("GB", kind)
