"""Dates as people say them: what is understood, what is refused, what is said back."""

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalog.reckoning.edtf_dates import Bound, DateError, Meaning, parse_date
from tests.reckoning.edtf_strategies import VALUES


def bounds(date):
    return date.start, date.end, date.earliest, date.latest, date.first_year, date.last_year


def understood(date):
    return bounds(date), date.is_uncertain, date.is_approximate, date.meaning


def refusal_or_date(text):
    try:
        return parse_date(text)
    except DateError as refusal:
        return str(refusal)


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ("about 1902", "1902~"),
        ("abt 1902", "1902~"),
        ("Circa 1902.", "1902~"),
        ("c.1902", "1902~"),
        ("c1902", "1902~"),
        ("ca. 1902", "1902~"),
        ("1902?", "1902?"),
        ("1902 (?)", "1902?"),
        ("abt 1902?", "1902%"),
        ("perhaps 14 June 1881", "1881-06-14?"),
        ("1890s", "189X"),
        ("the 1890's", "189X"),
        ("about the 1890s", "189X~"),
        ("early 1890s", "1890/1893~"),
        ("mid-1890s", "1894~/1896~"),
        ("late 1890s", "1897~/1899"),
        ("early 1911", "1911-37~"),
        ("late February 1911", "1911-02-21~/1911-02-28~"),
        ("20th century", "19XX"),
        ("before June 1956", "../1956-05"),
        ("before 1902", "../1901"),
        ("before about 1902", "../1901~"),
        ("before 14 June 1881", "../1881-06-13"),
        ("before the 1890s", "../1889"),
        ("by June 1956", "../1956-06"),
        ("1931 or earlier", "../1931"),
        ("after June 1956", "1956-07/.."),
        ("after 1956", "1957/.."),
        ("not before 14 June 1881", "1881-06-14/.."),
        ("1902 or later", "1902/.."),
        ("since June 1956", "{1956-06..}"),
        ("from 1929 on", "{1929..}"),
        ("until 1931", "{..1931}"),
        ("from 1898 to 1903", "{1898..1903}"),
        ("between 1898 and 1903", "1898/1903"),
        ("some time between 1898 and 1903", "1898/1903"),
        ("between June and August 1911", "1911-06/1911-08"),
        ("between 3 and 14 June 1911", "1911-06-03/1911-06-14"),
        ("1905 or 1906", "[1905,1906]"),
        ("1905, 1906 or 1908", "[1905,1906,1908]"),
        ("June or July 1911", "[1911-06,1911-07]"),
        ("June 14, 1881, or June 15, 1881", "[1881-06-14,1881-06-15]"),
        ("summer 1911", "1911-22"),
        ("spring of 1929", "1929-21"),
        ("autumn 1911", "1911-23"),
        ("winter 1911–12", "1911-24"),
        ("first half of 1911", "1911-40"),
        ("14 June 1881", "1881-06-14"),
        ("June 14, 1881", "1881-06-14"),
        ("14th of June, 1881", "1881-06-14"),
        ("1881 June 14", "1881-06-14"),
        ("Sept. 1902", "1902-09"),
        ("13/4/1902", "1902-04-13"),
        ("4/13/1902", "1902-04-13"),
        ("1902/06/14", "1902-06-14"),
        ("  1902 ", "1902"),
        ("189x", "189X"),
    ],
)
def test_words_become_edtf(said, kept):
    assert parse_date(said).edtf == kept


@pytest.mark.parametrize(
    ("edtf", "said"),
    [
        ("1902~", "about 1902"),
        ("1902%", "perhaps about 1902"),
        ("1898/1903", "some time between 1898 and 1903"),
        ("{1898..1903}", "from 1898 to 1903"),
        ("../1956-05", "before June 1956"),
        ("../1881-06-13", "before 14 June 1881"),
        ("1957/..", "1957 or later"),
        ("1957/", "some time between 1957 and an unknown date"),
        ("[1905,1906]", "1905 or 1906"),
        ("1911-22", "summer 1911"),
        ("1911-24", "winter 1911–12"),
        ("1899-24", "winter 1899–1900"),
        ("1911-30", "summer 1911–12 (southern)"),
        ("189X", "the 1890s"),
        ("190X", "the decade 1900–1909"),
        ("1984-1X", "1984-1X (X stands for an unknown figure)"),
        ("?2004-06-~11", "11 June 2004 (year uncertain, day approximate)"),
        ("-1985", "1986 BC"),
        ("{1902}", "all of 1902"),
        ("[1902..1903]", "some time between 1902 and 1903"),
        ("-198X", "-198X (X stands for an unknown figure)"),
        ("1XXX", "1XXX (X stands for an unknown figure)"),
        ("", "unknown"),
    ],
)
def test_edtf_is_said_in_words(edtf, said):
    assert parse_date(edtf).in_words() == said


@pytest.mark.parametrize(
    ("said", "answer"),
    [
        ("31 February 1902", "February 1902 has 28 days, so there is no 31 February 1902."),
        ("1902-02-31", "February 1902 has 28 days, so there is no 31 February 1902."),
        ("19X1-02-29", "No day of the calendar fits 19X1-02-29."),
        ("1956/1950", "1956 comes after 1950; the earlier date must come first."),
        ("between 1956 and 1950", "1956 comes after 1950; the earlier date must come first."),
        ("3/4/1902", "“3/4/1902” can be 3 April or 4 March. Please write the month in letters."),
        ("summer 11", "“summer 11” needs the year in four figures: did you mean 1811 or 1911?"),
        ("'11", "“'11” needs the year in four figures: did you mean 1811 or 1911?"),
        ("June", "“June” needs a year, such as “June 1911”."),
        ("1902-13", "There is no month 13: months run from 01 to 12."),
        ("1902-42", "There is no month 42: months run from 01 to 12, and 21 to 24 stand for spring, summer, fall and winter."),
        ("1902-22-01", "A season has no day, so “1902-22-01” cannot be read."),
        ("1900s", "“1900s” can be the decade or the century. Write “the decade 1900–1909” or “the century 1900–1999”."),
        ("1898 to 1903", "“1898 to 1903” can be meant in two ways. Write “between 1898 and 1903” for some time in those years, or “from 1898 to 1903” for all of them."),
        ("winter 1911–13", "“winter 1911-13” needs two years in a row, such as winter 1911–12."),
        ("spring 1911–12", "“spring 1911-12” needs one year only."),
        ("Y1902", "Write the year 1902 without Y: Y is for years of more than four figures."),
        ("Y1E99", "The year Y1E99 has more figures than can be kept."),
        ("1902S5", "The year 1902 has 4 figures, not 5 certain ones."),
        ("-0000", "There is no year -0000: the year before 0001 is written 0000."),
        ("1902-06-14T24:00:00", "There is no time 24:00:00: clocks run from 00:00:00 to 23:59:59."),
        ("../..", "“../..” has no date at either end; write “unknown” if that is meant."),
        ("1902/1903/1904", "“1902/1903/1904” has more than one slash; name the month in letters instead."),
        ("[1902", "“[1902” is not complete: a list of dates ends with ]."),
        ("[1902,..1903]", "“..1903” is open, so it can only begin or end a list."),
        ("1902-06-14T12:00:00+15", "There is no time zone +15: zones run from −12 to +14 hours."),
        ("Y19020-06", "“Y19020-06” cannot be read: such a year stands alone, in figures."),
        ("1902-06-14T12:00:00/1903", "An interval is between days, so “1902-06-14T12:00:00” must go without its time."),
        ("[..]", "“..” needs a date before it or after it."),
        ("1911/12", "“1911/12” can be a month or two years. Write “between 1911 and 1912”, “winter 1911–12” or “December 1911” with your figures."),
        ("before December, year unknown", "“before December, year unknown” needs a year."),
        ("after December, year unknown", "“after December, year unknown” needs a year."),
        ("1902-1903", "“1902-1903” is not a date I can read. Write “between 1902 and 1903” for some time in those years, or “from 1902 to 1903” for all of them."),
        ("11", "“11” is not a date I can read. A year needs all four figures, such as 1911."),
        ("before someone came", "“someone came” is not a date I can read. Try “14 June 1881”, “about 1902”, “1890s” or “before June 1956”."),
        ("9" * 401, "This is too long for a date: use at most 400 letters."),
        (", ".join(["1902"] * 30) + " or 1903", "These are too many dates for one event: name the first and the last."),
    ],
)  # fmt: skip
def test_a_date_that_cannot_be_is_refused_in_plain_words(said, answer):
    with pytest.raises(DateError) as refusal:
        parse_date(said)

    assert str(refusal.value) == answer


@pytest.mark.parametrize("said", ["", "  ", "?", "Unknown", "n.d.", "undated", "no date"])
def test_nothing_known_is_an_unknown_date(said):
    date = parse_date(said)

    assert (date.edtf, date.is_unknown, date.in_words()) == ("", True, "unknown")


def test_open_and_unknown_ends_are_kept_apart():
    ends = [
        (parse_date(text).start, parse_date(text).end) for text in ("1902/..", "1902/", "/1902")
    ]

    assert ends == [
        (Bound.KNOWN, Bound.OPEN),
        (Bound.KNOWN, Bound.UNKNOWN),
        (Bound.UNKNOWN, Bound.KNOWN),
    ]


def test_the_two_meanings_of_an_interval_are_kept_apart():
    within, throughout = parse_date("between 1898 and 1903"), parse_date("from 1898 to 1903")

    assert bounds(within) == bounds(throughout)
    assert (within.meaning, throughout.meaning) == (Meaning.WITHIN, Meaning.THROUGHOUT)
    assert parse_date(throughout.edtf).meaning is Meaning.THROUGHOUT


def test_about_moves_no_bound_unless_asked():
    date = parse_date("about 29 February 1904")

    assert date.earliest == date.latest == dt.date(1904, 2, 29)
    assert date.widened(1) == (dt.date(1903, 2, 28), dt.date(1905, 2, 28))
    assert parse_date("1904").widened(5) == (dt.date(1904, 1, 1), dt.date(1904, 12, 31))
    assert parse_date("about 1904 or later").widened(5) == (dt.date(1899, 1, 1), None)


def test_winter_ends_in_the_next_year():
    date = parse_date("winter 1911")

    assert (date.earliest, date.latest) == (dt.date(1911, 12, 1), dt.date(1912, 2, 29))


def test_years_beyond_the_calendar_are_kept_as_numbers():
    date = parse_date("-2004/1999")

    assert bounds(date) == (Bound.BEYOND, Bound.KNOWN, None, dt.date(1999, 12, 31), -2004, 1999)


@given(VALUES)
def test_edtf_reads_back_as_itself(edtf):
    date = parse_date(edtf)

    assert parse_date(date.edtf) == date


@settings(max_examples=400)
@given(VALUES)
def test_words_read_back_to_the_same_days_and_doubts(edtf):
    date = parse_date(edtf)

    assert understood(parse_date(date.in_words())) == understood(date)


@given(st.text(max_size=40) | st.text("0123456789X?~%-/.,[]{}YTSE ", max_size=24))
def test_any_text_is_read_or_refused(text):
    answer = refusal_or_date(text)

    if isinstance(answer, str):
        assert answer[-1] in ".?"
    else:
        assert not (answer.earliest and answer.latest and answer.earliest > answer.latest)
