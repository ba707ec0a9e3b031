"""Dates against the Extended Date/Time Format specification.

Source: Extended Date/Time Format (EDTF) Specification, Library of Congress, 4 February 2019, a
profile of ISO 8601-2:2019. The texts are all the examples printed there, level by level. The
specification explains what most of them mean but prints no bounds; the bounds here follow
from those explanations, except for seasons, where it leaves the days open. For those, the
meteorological seasons of the World Meteorological Organization are used (whole months; spring
is March to May in the north), and winter is taken to begin in the year written.
"""

import pytest

from catalog.reckoning.edtf_dates import Bound, Meaning, parse_date

OPEN, UNKNOWN = Bound.OPEN, Bound.UNKNOWN

LEVEL_0 = [
    ("1985-04-12", "1985-04-12", "1985-04-12"),
    ("1985-04", "1985-04-01", "1985-04-30"),
    ("1985", "1985-01-01", "1985-12-31"),
    ("1985-04-12T23:20:30", "1985-04-12", "1985-04-12"),
    ("1985-04-12T23:20:30Z", "1985-04-12", "1985-04-12"),
    ("1985-04-12T23:20:30-04", "1985-04-12", "1985-04-12"),
    ("1985-04-12T23:20:30+04:30", "1985-04-12", "1985-04-12"),
    ("1964/2008", "1964-01-01", "2008-12-31"),
    ("2004-06/2006-08", "2004-06-01", "2006-08-31"),
    ("2004-02-01/2005-02-08", "2004-02-01", "2005-02-08"),
    ("2004-02-01/2005-02", "2004-02-01", "2005-02-28"),
    ("2004-02-01/2005", "2004-02-01", "2005-12-31"),
    ("2005/2006-02", "2005-01-01", "2006-02-28"),
]
LEVEL_1 = [
    ("Y170000002", 170000002, 170000002),
    ("Y-170000002", -170000002, -170000002),
    ("2001-21", "2001-03-01", "2001-05-31"),
    ("2001-22", "2001-06-01", "2001-08-31"),
    ("2001-23", "2001-09-01", "2001-11-30"),
    ("2001-24", "2001-12-01", "2002-02-28"),
    ("1984?", "1984-01-01", "1984-12-31"),
    ("2004-06~", "2004-06-01", "2004-06-30"),
    ("2004-06-11%", "2004-06-11", "2004-06-11"),
    ("201X", "2010-01-01", "2019-12-31"),
    ("20XX", "2000-01-01", "2099-12-31"),
    ("2004-XX", "2004-01-01", "2004-12-31"),
    ("1985-04-XX", "1985-04-01", "1985-04-30"),
    ("1985-XX-XX", "1985-01-01", "1985-12-31"),
    ("1985-04-12/..", "1985-04-12", OPEN),
    ("1985-04/..", "1985-04-01", OPEN),
    ("1985/..", "1985-01-01", OPEN),
    ("../1985-04-12", OPEN, "1985-04-12"),
    ("../1985-04", OPEN, "1985-04-30"),
    ("../1985", OPEN, "1985-12-31"),
    ("1985-04-12/", "1985-04-12", UNKNOWN),
    ("1985-04/", "1985-04-01", UNKNOWN),
    ("1985/", "1985-01-01", UNKNOWN),
    ("/1985-04-12", UNKNOWN, "1985-04-12"),
    ("/1985-04", UNKNOWN, "1985-04-30"),
    ("/1985", UNKNOWN, "1985-12-31"),
    ("-1985", -1985, -1985),
    ("1984?/2004~", "1984-01-01", "2004-12-31"),
    ("1984~/2004-06", "1984-01-01", "2004-06-30"),
    ("2004-06-01/2004-06~", "2004-06-01", "2004-06-30"),
    ("1984?/2004%", "1984-01-01", "2004-12-31"),
    ("1984~/2004~", "1984-01-01", "2004-12-31"),
    ("-2004/1999", -2004, "1999-12-31"),
]
LEVEL_2 = [
    ("Y-17E7", -170000000, -170000000),
    ("1950S2", "1900-01-01", "1999-12-31"),
    ("Y171010000S3", 171000000, 171999999),
    ("Y3388E2S3", 338000, 338999),
    ("2001-34", "2001-04-01", "2001-06-30"),
    ("2001-25", "2001-03-01", "2001-05-31"),
    ("2001-41", "2001-07-01", "2001-12-31"),
    ("[1667,1668,1670..1672]", "1667-01-01", "1672-12-31"),
    ("[..1760-12-03]", OPEN, "1760-12-03"),
    ("[1760-12..]", "1760-12-01", OPEN),
    ("[1760-01,1760-02,1760-12..]", "1760-01-01", OPEN),
    ("[1667,1760-12]", "1667-01-01", "1760-12-31"),
    ("[..1984]", OPEN, "1984-12-31"),
    ("{1667,1668,1670..1672}", "1667-01-01", "1672-12-31"),
    ("{1960,1961-12}", "1960-01-01", "1961-12-31"),
    ("{..1984}", OPEN, "1984-12-31"),
    ("2004-06-11%", "2004-06-11", "2004-06-11"),
    ("2004-06~-11", "2004-06-11", "2004-06-11"),
    ("2004?-06-11", "2004-06-11", "2004-06-11"),
    ("?2004-06-~11", "2004-06-11", "2004-06-11"),
    ("2004-%06-11", "2004-06-11", "2004-06-11"),
    ("156X-12-25", "1560-12-25", "1569-12-25"),
    ("15XX-12-25", "1500-12-25", "1599-12-25"),
    ("XXXX-12-XX", UNKNOWN, UNKNOWN),
    ("1XXX-XX", "1000-01-01", "1999-12-31"),
    ("1XXX-12", "1000-12-01", "1999-12-31"),
    ("1984-1X", "1984-10-01", "1984-12-31"),
    ("2004-06-~01/2004-06-~20", "2004-06-01", "2004-06-20"),
    ("2004-06-XX/2004-07-03", "2004-06-01", "2004-07-03"),
]
EXAMPLES = LEVEL_0 + LEVEL_1 + LEVEL_2


def bound(kind, day, year):
    """Show a bound as the tables above do: a day, a year beyond the calendar, or its kind."""
    if kind is Bound.KNOWN:
        return day.isoformat()
    return year if kind is Bound.BEYOND else kind


def test_every_example_of_the_specification_is_here():
    assert (len(LEVEL_0), len(LEVEL_1), len(LEVEL_2)) == (13, 33, 29)


@pytest.mark.parametrize(("text", "earliest", "latest"), EXAMPLES)
def test_an_example_has_the_days_it_stands_for(text, earliest, latest):
    date = parse_date(text)

    assert date.edtf == text
    assert bound(date.start, date.earliest, date.first_year) == earliest
    assert bound(date.end, date.latest, date.last_year) == latest


@pytest.mark.parametrize("text", [text for text, _, _ in EXAMPLES])
def test_an_example_survives_being_said_in_words(text):
    date = parse_date(text)
    heard = parse_date(date.in_words())

    assert (heard.earliest, heard.latest, heard.start, heard.end) == (
        date.earliest,
        date.latest,
        date.start,
        date.end,
    )
    assert (heard.first_year, heard.last_year) == (date.first_year, date.last_year)
    assert (heard.is_uncertain, heard.is_approximate) == (date.is_uncertain, date.is_approximate)


@pytest.mark.parametrize(("text", "earliest", "latest"), EXAMPLES)
def test_an_example_carries_the_doubts_it_is_written_with(text, earliest, latest):
    date = parse_date(text)

    assert date.is_uncertain == bool({"?", "%"} & set(text))
    assert date.is_approximate == bool({"~", "%"} & set(text))
    assert (date.meaning is Meaning.THROUGHOUT) == text.startswith("{")


@pytest.mark.parametrize(
    ("code", "earliest", "latest"),
    [
        (21, "2001-03-01", "2001-05-31"),
        (24, "2001-12-01", "2002-02-28"),
        (28, "2001-12-01", "2002-02-28"),
        (29, "2001-09-01", "2001-11-30"),
        (30, "2001-12-01", "2002-02-28"),
        (31, "2001-03-01", "2001-05-31"),
        (32, "2001-06-01", "2001-08-31"),
        (33, "2001-01-01", "2001-03-31"),
        (36, "2001-10-01", "2001-12-31"),
        (37, "2001-01-01", "2001-04-30"),
        (39, "2001-09-01", "2001-12-31"),
        (40, "2001-01-01", "2001-06-30"),
    ],
)  # fmt: skip
def test_a_season_or_part_of_a_year_has_its_months(code, earliest, latest):
    date = parse_date(f"2001-{code}")

    assert (date.earliest.isoformat(), date.latest.isoformat()) == (earliest, latest)
