"""Read the text of an Extended Date/Time Format value into its parts."""

import re
from dataclasses import dataclass
from enum import Enum

from catalog.reckoning.edtf_calendar import DateError, Day, extreme_day, season_bounds

_MARK = "[?~%]?"
_DATE = re.compile(
    rf"(?P<before_year>{_MARK})(?P<year>-?[0-9X]{{4}}|Y-?[0-9]+(?:E[0-9]+)?)"
    rf"(?:S(?P<significant>[0-9]+))?(?P<after_year>{_MARK})"
    rf"(?:-(?P<before_month>{_MARK})(?P<month>[0-9X]{{2}})(?P<after_month>{_MARK})"
    rf"(?:-(?P<before_day>{_MARK})(?P<day>[0-9X]{{2}})(?P<after_day>{_MARK}))?)?"
)
_TIME = re.compile(
    r"(?P<date>[0-9]{4}-[0-9]{2}-[0-9]{2})T(?P<clock>[0-9]{2}:[0-9]{2}:[0-9]{2})"
    r"(?P<zone>Z|[+-][0-9]{2}(?::[0-9]{2})?)?"
)
# Years beyond this many figures mean nothing here and would only cost memory.
_MOST_FIGURES = 18


class End(Enum):
    """Say how an end without a date is meant."""

    OPEN = ".."
    UNKNOWN = ""


@dataclass(frozen=True, slots=True)
class Atom:
    """Hold one date: its parts as written, their marks, and its first and last day.

    ``marks`` are those of year, month and day, each a string that contains ``?`` for uncertain
    and ``~`` for approximate. ``first`` and ``last`` are ``None`` where the year is unknown.
    """

    text: str
    year: str
    month: str
    day: str
    marks: tuple[str, ...]
    first: Day | None
    last: Day | None
    significant: int = 0
    clock: str = ""
    zone: str = ""

    @property
    def is_plain(self) -> bool:
        """Tell whether it is a year, month or day without mark, mask, season or clock."""
        plain = not any(self.marks) and "X" not in self.text
        return plain and not self.significant and not self.clock and self.month <= "12"


@dataclass(frozen=True, slots=True)
class Span:
    """Hold the start and end of one stretch; a single date is its own start and end."""

    start: Atom | End
    end: Atom | End


@dataclass(frozen=True, slots=True)
class Expression:
    """Hold a whole value: a ``date``, an ``interval``, ``one of`` a set or ``all of`` it."""

    kind: str
    spans: tuple[Span, ...]
    text: str


def read_edtf(text: str) -> Expression:
    """Read an EDTF text of levels 0 to 2 without spaces.

    The grammar is that of the Library of Congress specification of 4 February 2019.

    >>> read_edtf("[1667,1670..1672]").spans[1].end.last
    (1672, 12, 31)
    """
    if text[:1] in ("[", "{"):
        return _read_set(text)
    if "/" in text:
        return _read_interval(text)
    atom = read_atom(text)
    return Expression("date", (Span(atom, atom),), text)


def read_atom(text: str) -> Atom:
    """Read one EDTF date, with or without a time of day.

    >>> read_atom("1984-1X").first
    (1984, 10, 1)
    """
    timed = _TIME.fullmatch(text)
    if timed:
        return _read_timed(timed)
    found = _DATE.fullmatch(text)
    if not found:
        raise DateError(f"“{text}” is not a date I can read. {_advice(text)}")
    year, month, day = found["year"], found["month"] or "", found["day"] or ""
    if year.startswith("Y") or found["significant"]:
        return _read_long_year(found)
    first, last = _bounds(year, month, day)
    known = year != "XXXX"
    return Atom(
        text, year, month, day, _marks(found), first if known else None, last if known else None
    )


def _advice(text: str) -> str:
    if re.fullmatch(r"[0-9]{4}-[0-9]{4}", text):
        first, last = text.split("-")
        return (
            f"Write “between {first} and {last}” for some time in those years, "
            f"or “from {first} to {last}” for all of them."
        )
    if re.fullmatch(r"'?[0-9]{1,2}", text):
        return "A year needs all four figures, such as 1911."
    return "Try “14 June 1881”, “about 1902”, “1890s” or “before June 1956”."


def _read_timed(found: re.Match[str]) -> Atom:
    date = read_atom(found["date"])
    hour, minute, second = (int(part) for part in found["clock"].split(":"))
    if hour > 23 or minute > 59 or second > 59:
        raise DateError(f"There is no time {found['clock']}: clocks run from 00:00:00 to 23:59:59.")
    zone = found["zone"] or ""
    shift = [int(part) for part in zone[1:].split(":") if part]
    if shift and (shift[0] > 14 or shift[-1] > 59):
        raise DateError(f"There is no time zone {zone}: zones run from −12 to +14 hours.")
    parts = (date.year, date.month, date.day)
    return Atom(
        found[0], *parts, ("", "", ""), date.first, date.last, clock=found["clock"], zone=zone
    )


def _bounds(year: str, month: str, day: str) -> tuple[Day, Day]:
    if year == "-0000":
        raise DateError("There is no year -0000: the year before 0001 is written 0000.")
    if month >= "20" and month[:1] != "X":
        if day:
            raise DateError(f"A season has no day, so “{year}-{month}-{day}” cannot be read.")
        first_year = extreme_day(year, "", "", last=False)[0]
        return season_bounds(first_year, extreme_day(year, "", "", last=True)[0], month)
    return extreme_day(year, month, day, last=False), extreme_day(year, month, day, last=True)


def _read_long_year(found: re.Match[str]) -> Atom:
    written = found["year"]
    if found["month"] or "X" in written:
        raise DateError(f"“{found[0]}” cannot be read: such a year stands alone, in figures.")
    base, _, exponent = written.removeprefix("Y").partition("E")
    if len(base) + int(exponent or 0) > _MOST_FIGURES:
        raise DateError(f"The year {written} has more figures than can be kept.")
    if written.startswith("Y") and not exponent and len(base.lstrip("-0")) < 5:
        raise DateError(
            f"Write the year {base} without Y: Y is for years of more than four figures."
        )
    year = int(base) * 10 ** int(exponent or 0)
    significant = int(found["significant"] or 0)
    low, high = _significant_years(year, significant)
    first, last = (low, 1, 1), (high, 12, 31)
    return Atom(found[0], str(year), "", "", _marks(found), first, last, significant)


def _significant_years(year: int, significant: int) -> tuple[int, int]:
    figures = len(str(abs(year)))
    if not significant:
        return year, year
    if significant > figures:
        raise DateError(f"The year {year} has {figures} figures, not {significant} certain ones.")
    block = 10 ** (figures - significant)
    low = abs(year) // block * block
    high = low + block - 1
    return (low, high) if year >= 0 else (-high, -low)


def _marks(found: re.Match[str]) -> tuple[str, ...]:
    """Give each part its own mark and those that stand to its right after a part."""
    units = [unit for unit in ("year", "month", "day") if found[unit]]
    after = [found[f"after_{unit}"] for unit in units]
    marks = []
    for place, unit in enumerate(units):
        written = found[f"before_{unit}"] + "".join(after[place:])
        marks.append("".join(sign for sign in "?~" if sign in written or "%" in written))
    return tuple(marks)


def _read_interval(text: str) -> Expression:
    parts = text.split("/")
    if len(parts) != 2:
        raise DateError(f"“{text}” has more than one slash; name the month in letters instead.")
    if re.fullmatch("[0-9]{4}/[0-9]{1,2}", text):
        raise DateError(
            f"“{text}” can be a month or two years. Write “between 1911 and 1912”, "
            "“winter 1911–12” or “December 1911” with your figures."
        )
    start, end = (_interval_end(part) for part in parts)
    if isinstance(start, End) and isinstance(end, End):
        raise DateError(f"“{text}” has no date at either end; write “unknown” if that is meant.")
    _refuse_reversed(start, end)
    return Expression("interval", (Span(start, end),), text)


def _interval_end(text: str) -> Atom | End:
    if text in ("", ".."):
        return End(text)
    atom = read_atom(text)
    if atom.clock:
        raise DateError(f"An interval is between days, so “{text}” must go without its time.")
    return atom


def _refuse_reversed(start: Atom | End, end: Atom | End) -> None:
    if isinstance(start, End) or isinstance(end, End) or not start.first or not end.last:
        return
    if start.first > end.last:
        raise DateError(f"{start.text} comes after {end.text}; the earlier date must come first.")


def _read_set(text: str) -> Expression:
    closing = {"[": "]", "{": "}"}[text[0]]
    members = text[1:-1].split(",")
    if text[-1] != closing or members == [""]:
        raise DateError(f"“{text}” is not complete: a list of dates ends with {closing}.")
    spans = tuple(_read_member(member, members) for member in members)
    return Expression("one of" if closing == "]" else "all of", spans, text)


def _read_member(text: str, members: list[str]) -> Span:
    if ".." not in text:
        return Span(read_atom(text), read_atom(text))
    before, after = text.split("..", 1)
    if not before and not after:
        raise DateError("“..” needs a date before it or after it.")
    if (not before and text != members[0]) or (not after and text != members[-1]):
        raise DateError(f"“{text}” is open, so it can only begin or end a list.")
    start: Atom | End = read_atom(before) if before else End.OPEN
    end: Atom | End = read_atom(after) if after else End.OPEN
    _refuse_reversed(start, end)
    return Span(start, end)
