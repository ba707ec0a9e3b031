"""Keep dates as honestly as people know them, in EDTF with earliest and latest days."""

import datetime as dt
from dataclasses import dataclass, field
from enum import Enum
from functools import lru_cache

from catalog.reckoning.date_phrases import phrase
from catalog.reckoning.date_words import to_edtf
from catalog.reckoning.edtf_calendar import DateError, Day
from catalog.reckoning.edtf_grammar import Atom, End, Expression, read_edtf

__all__ = ["Bound", "DateError", "Meaning", "VagueDate", "parse_date", "reasoned_bounds"]

# How far “about” reaches when dates are held against each other: common practice, no source.
ABOUT_YEARS = 5
_LONGEST_TEXT = 400
# What is kept must fit the column that it is kept in.
_LONGEST_EDTF = 120


class Bound(Enum):
    """Say why a bound is a day or is missing."""

    KNOWN = "known"
    OPEN = "open"
    UNKNOWN = "unknown"
    BEYOND = "beyond the calendar"


class Meaning(Enum):
    """Say whether something happened at some time within the dates, or lasted through them."""

    WITHIN = "at some time within"
    THROUGHOUT = "throughout"


@dataclass(frozen=True, slots=True)
class VagueDate:
    """Hold a date as written, and the first and last day that it can mean.

    ``earliest`` and ``latest`` follow what is written and nothing else: “about” sets
    ``is_approximate`` and moves no bound (see ``widened``), “?” sets ``is_uncertain``.
    A bound is ``None`` when it is open (``..``), unknown, or outside the years 1 to 9999;
    ``start`` and ``end`` say which, and ``first_year`` and ``last_year`` still hold the year
    of a bound that is beyond the calendar. Dates are Gregorian throughout.
    """

    edtf: str
    earliest: dt.date | None
    latest: dt.date | None
    start: Bound
    end: Bound
    first_year: int | None
    last_year: int | None
    is_uncertain: bool = False
    is_approximate: bool = False
    meaning: Meaning = Meaning.WITHIN
    _expression: Expression | None = field(default=None, repr=False, compare=False)

    @property
    def is_unknown(self) -> bool:
        """Tell whether nothing at all is known of the date."""
        return self.start is self.end is Bound.UNKNOWN

    def in_words(self) -> str:
        """Say the date in plain words that can be read back to the same days.

        >>> parse_date("../1956-05").in_words()
        'before June 1956'
        """
        return phrase(self._expression) if self._expression else "unknown"

    def widened(self, years: int) -> tuple[dt.date | None, dt.date | None]:
        """Return the bounds, moved apart by ``years`` if the date is approximate.

        How far “about” reaches is the reader's judgment (common practice, no source), so it is
        never applied unasked.

        >>> parse_date("about 1902").widened(2)
        (datetime.date(1900, 1, 1), datetime.date(1904, 12, 31))
        """
        if not self.is_approximate:
            return self.earliest, self.latest
        return _moved(self.earliest, -years), _moved(self.latest, years)


def is_about(edtf: str) -> bool:
    """Tell whether any part of a date in EDTF is approximate.

    >>> is_about("1902~"), is_about("1902%"), is_about("1902?")
    (True, True, False)
    """
    return "~" in edtf or "%" in edtf


@lru_cache(maxsize=10_000)
def reasoned_bounds(edtf: str) -> tuple[dt.date | None, dt.date | None]:
    """Return the bounds by which a date is held against others, “about” as five years each way.

    What is written as 1902 must not be said to contradict a sighting of 1901 if it was
    “about 1902” that somebody said.

    >>> reasoned_bounds("1902~")
    (datetime.date(1897, 1, 1), datetime.date(1907, 12, 31))
    >>> reasoned_bounds("1902")
    (datetime.date(1902, 1, 1), datetime.date(1902, 12, 31))
    """
    return parse_date(edtf).widened(ABOUT_YEARS)


def parse_date(text: str) -> VagueDate:
    """Read a date as people say it, or an EDTF text of levels 0 to 2.

    An interval ``1898/1903`` and “between 1898 and 1903” mean some time within; “from 1898 to
    1903” means throughout and is kept as ``{1898..1903}``, so the two stay apart in what is
    stored. “Until 1931” and “since 1931” are throughout as well; “before”, “by” and “after” are
    within. Seasons are the meteorological ones of the north, and winter begins in December of
    the year written. Nothing, “?” and “unknown” give an unknown date, whose ``edtf`` is empty.
    Source: Extended Date/Time Format, Library of Congress, 4 February 2019 (ISO 8601-2).

    >>> parse_date("abt 1902?").edtf
    '1902%'
    >>> parse_date("between 1898 and 1903").in_words()
    'some time between 1898 and 1903'
    """
    if len(text) > _LONGEST_TEXT:
        raise DateError(f"This is too long for a date: use at most {_LONGEST_TEXT} letters.")
    edtf = to_edtf(text)
    if len(edtf) > _LONGEST_EDTF:
        raise DateError("These are too many dates for one event: name the first and the last.")
    if not edtf:
        return VagueDate("", None, None, Bound.UNKNOWN, Bound.UNKNOWN, None, None)
    return _from_expression(read_edtf(edtf))


def _from_expression(value: Expression) -> VagueDate:
    ends = [end for span in value.spans for end in (span.start, span.end)]
    marks = "".join(mark for end in ends if isinstance(end, Atom) for mark in end.marks)
    start, first = _outermost([_first(span.start) for span in value.spans], latest=False)
    end, last = _outermost([_last(span.end) for span in value.spans], latest=True)
    return VagueDate(
        value.text,
        _date(first),
        _date(last),
        start,
        end,
        first[0] if first else None,
        last[0] if last else None,
        is_uncertain="?" in marks,
        is_approximate="~" in marks,
        meaning=Meaning.THROUGHOUT if value.kind == "all of" else Meaning.WITHIN,
        _expression=value,
    )


def _first(end: Atom | End) -> Day | End:
    return end if isinstance(end, End) else end.first or End.UNKNOWN


def _last(end: Atom | End) -> Day | End:
    return end if isinstance(end, End) else end.last or End.UNKNOWN


def _outermost(ends: list[Day | End], *, latest: bool) -> tuple[Bound, Day | None]:
    if End.OPEN in ends:
        return Bound.OPEN, None
    days = [end for end in ends if not isinstance(end, End)]
    if len(days) < len(ends):
        return Bound.UNKNOWN, None
    day = max(days) if latest else min(days)
    return (Bound.KNOWN if _date(day) else Bound.BEYOND), day


def _date(day: Day | None) -> dt.date | None:
    if day is None or not dt.MINYEAR <= day[0] <= dt.MAXYEAR:
        return None
    return dt.date(*day)


def _moved(day: dt.date | None, years: int) -> dt.date | None:
    """Move a day by whole years; 29 February becomes 28 February where it must."""
    if day is None:
        return None
    year = min(max(day.year + years, dt.MINYEAR), dt.MAXYEAR)
    last_of_february = (day.month, day.day) == (2, 29)
    return day.replace(year=year, day=28) if last_of_february else day.replace(year=year)
