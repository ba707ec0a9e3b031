"""Find dates and numbers in the text of a patent marking, with ``?`` for worn characters."""

import re
from dataclasses import dataclass, replace
from datetime import date

from catalog.reckoning.patent_numbers import LAST_YEAR, YEARS

# Spellings met on castings (common practice, no source).
MONTHS = (
    ("JAN", "JANY", "JANUARY"),
    ("FEB", "FEBY", "FEBRUARY"),
    ("MAR", "MCH", "MARCH"),
    ("APR", "APL", "APRIL"),
    ("MAY",),
    ("JUN", "JUNE"),
    ("JUL", "JULY"),
    ("AUG", "AUGT", "AUGUST"),
    ("SEP", "SEPT", "SEPTR", "SEPTEMBER"),
    ("OCT", "OCTR", "OCTOBER"),
    ("NOV", "NOVR", "NOVEMBER"),
    ("DEC", "DECR", "DECEMBER"),
)

# Goods were marked with the date from 1842 (from memory) to 1927; within that span
# two figures of a year, or none at all, are completed.
DATE_MARKING_YEARS = range(1842, 1928)

_MONTH = r"(?P<month>[A-Z?0]{3,9})"
_WORD = rf"(?<![A-Z0-9?']){_MONTH}"
_DAY = r"(?:[12?][0-9?]|3[01?]|0[1-9?]|[1-9?])(?![0-9?])(?:ST|ND|RD|TH|D)?(?![A-Z?])"
_FULL_YEAR = r"[12?][0-9?]{3}(?![0-9?A-Z,])"
_SHORT_YEAR = r"'[0-9?]{2}(?![0-9?A-Z])|[0-9?]{2}(?![0-9?A-Z])(?!\W*(?:AND\W*)?[12][0-9?]{3})"
_YEAR = rf"(?P<year>{_FULL_YEAR}|{_SHORT_YEAR})"
_GAP = r"[\s.,/-]*(?:[\s.,/-]|(?='))"
# Without an "and" another day follows only when a full year ends the list.
_MORE_DAYS = rf"(?:(?:\s*(?:&|AND)\s*|[\s,]+(?=[^A-Z]*[12][0-9?]{{3}})){_DAY})*"

DATE_FORMS = tuple(
    re.compile(form)
    for form in (
        rf"(?<![0-9?,'A-Z])(?P<days>{_DAY})[\s.,-]*(?:OF\s+)?{_MONTH}{_GAP}{_YEAR}",
        rf"{_WORD}[\s.,-]*(?P<days>{_DAY}{_MORE_DAYS})(?:{_GAP}{_YEAR})?",
        rf"{_WORD}[\s.,]+(?P<year>{_FULL_YEAR}|'[0-9?]{{2}}(?![0-9?A-Z]))",
        r"(?<![0-9?,])(?P<first>[0-9?]{1,2})[-/.](?P<second>[0-9?]{1,2})[-/.]"
        rf"(?P<year>{_FULL_YEAR}|[0-9?]{{2}}(?![0-9?A-Z]))",
    )
)
LONE_YEAR = re.compile(rf"(?<![0-9?,'A-Z])(?<!NO )(?<!NO\. )(?P<year>{_FULL_YEAR})")


@dataclass(frozen=True, slots=True)
class DateReading:
    """One date as far as it can be read: months that fit, and patterns of day and year.

    An empty pattern means that the marking does not give that part. Figures alone
    may give the month or the day first, and the other order is the ``alternative``.
    """

    text: str
    months: tuple[int, ...]
    day: str = ""
    year: str = ""
    alternative: "DateReading | None" = None


def plain_characters(text: str) -> str:
    """Bring a marking to capitals, plain apostrophes, periods and single spaces.

    >>> plain_characters("Pat’d  Aug·14")
    "PAT'D AUG.14"
    """
    plain = text.upper().translate(str.maketrans("’‘`´·•|\u00ba", "''''.. \u00b0"))
    return " ".join(plain.split())


def fits(pattern: str, text: str) -> bool:
    """Say whether ``text`` may stand where ``pattern`` was read, ``?`` being any one character.

    >>> fits("?UG", "AUG"), fits("?UG", "AUGT"), fits("0CT", "OCT")
    (True, False, True)
    """
    return len(pattern) == len(text) and all(
        read in ("?", true) or (read, true) == ("0", "O")
        for read, true in zip(pattern, text, strict=True)
    )


def months_fitting(word: str) -> tuple[int, ...]:
    """Return the months of which some spelling fits the word.

    >>> months_fitting("?UG"), months_fitting("JU??"), months_fitting("PAT")
    ((8,), (6, 7), ())
    """
    return tuple(
        number
        for number, names in enumerate(MONTHS, start=1)
        if any(fits(word, name) for name in names)
    )


def years_fitting(pattern: str) -> tuple[int, ...]:
    """Return the years that fit a pattern of four, two or no characters.

    A full year needs no table; a worn one is sought where numbers are known, and
    two figures where goods were marked with dates.

    >>> years_fitting("190?")[::9], years_fitting("'88"), years_fitting("1888")
    ((1900, 1909), (1888,), (1888,))
    """
    if pattern.isdigit() and len(pattern) == 4:
        return (int(pattern),) if int(pattern) > 0 else ()
    figures = pattern.removeprefix("'")
    if len(figures) == 4:
        return tuple(year for year in range(YEARS[0], LAST_YEAR + 1) if fits(figures, str(year)))
    return tuple(year for year in DATE_MARKING_YEARS if not figures or fits(figures, str(year)[2:]))


def days_fitting(reading: DateReading) -> tuple[date, ...]:
    """Return every day that fits a reading, in order.

    >>> len(days_fitting(DateReading("?UG 1? 190?", (8,), "1?", "190?")))
    100
    """
    days = [
        date(year, month, day)
        for year in years_fitting(reading.year)
        for month in reading.months
        for day in range(1, days_in_month(year, month) + 1)
        if _day_fits(reading.day, day)
    ]
    others = days_fitting(reading.alternative) if reading.alternative else ()
    return tuple(sorted({*days, *others}))


def days_in_month(year: int, month: int) -> int:
    """Return how many days the month has.

    >>> days_in_month(1900, 2), days_in_month(1888, 12)
    (28, 31)
    """
    if month == 12:
        return 31
    return (date(year, month + 1, 1) - date(year, month, 1)).days


def find_dates(text: str) -> tuple[list[DateReading], str]:
    """Find the dates in plain characters; return them in order, and what is left.

    A date without a year takes that of the next date, as in ``JUNE 14 & AUG 2, 1881``.

    >>> readings, left = find_dates("PAT. JUNE 14 & AUG 2, 1881")
    >>> [(reading.text, reading.year) for reading in readings]
    [('JUNE 14', '1881'), ('AUG 2, 1881', '1881')]
    """
    found: list[tuple[int, DateReading]] = []
    for form in DATE_FORMS:
        for match in form.finditer(text):
            readings = _readings_of(match)
            found += [(match.start(), reading) for reading in readings]
            if readings:
                text = _blanked(text, match)
    found.sort(key=lambda pair: pair[0])
    return _with_years([reading for _, reading in found]), text


def find_years(text: str) -> tuple[list[DateReading], str]:
    """Find years that stand alone, and return what is left of the text.

    >>> find_years("PATENTED 1869")[0][0].year
    '1869'
    """
    readings = []
    for match in LONE_YEAR.finditer(text):
        if any(figure.isdigit() for figure in match["year"]) and years_fitting(match["year"]):
            readings.append(DateReading(match[0], tuple(range(1, 13)), year=match["year"]))
            text = _blanked(text, match)
    return readings, text


def _readings_of(match: re.Match[str]) -> list[DateReading]:
    """Turn one match of a date form into readings, none if no month fits."""
    groups = match.groupdict()
    if not any(character.isalnum() for character in match[0]):
        return []
    if "first" in groups:
        return _numeric_readings(match)
    months = months_fitting(groups["month"])
    if not months:
        return []
    days = [re.sub("[A-Z]", "", day) for day in re.findall(_DAY, groups.get("days") or "")]
    year = groups["year"] or ""
    if len(days) <= 1:
        return [DateReading(match[0], months, "".join(days), year)]
    texts = [f"{groups['month']} {day} {year}".strip() for day in days]
    return [DateReading(text, months, day, year) for text, day in zip(texts, days, strict=True)]


def _numeric_readings(match: re.Match[str]) -> list[DateReading]:
    """Read figures alone, month before day as in the United States, and day first."""
    orders = ((match["first"], match["second"]), (match["second"], match["first"]))
    readings = [
        DateReading(match[0], months, day, match["year"])
        for month, day in dict.fromkeys(orders)
        if (months := tuple(number for number in range(1, 13) if _day_fits(month, number)))
        and any(_day_fits(day, number) for number in range(1, 32))
    ]
    if len(readings) < 2:
        return readings
    return [replace(readings[0], alternative=readings[1])]


def _day_fits(pattern: str, number: int) -> bool:
    """Say whether a day or month number may have been read as ``pattern``."""
    return not pattern or fits(pattern, str(number)) or fits(pattern, f"{number:02}")


def _with_years(readings: list[DateReading]) -> list[DateReading]:
    """Give each date without a year that of the next date that has one."""
    year, completed = "", []
    for reading in reversed(readings):
        year = reading.year or year
        completed.append(replace(reading, year=year))
    return completed[::-1]


def _blanked(text: str, match: re.Match[str]) -> str:
    """Blank out a match, keeping the places of the rest."""
    return text[: match.start()] + " " * len(match[0]) + text[match.end() :]
