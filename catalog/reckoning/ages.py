"""Combine what speaks for the age of a piece into when it was made."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from catalog.reckoning.chronology import Contradiction, Statement, day_words


@dataclass(frozen=True, slots=True)
class AgeEvidence:
    """Hold one piece of evidence: made not before one day, not after another, or both."""

    label: str
    not_before: dt.date | None = None
    not_after: dt.date | None = None
    source: str = ""
    key: str = ""


@dataclass(frozen=True, slots=True)
class MadeBetween:
    """Hold the days within which a piece was made, and the evidence that set each bound.

    If there are ``contradictions``, both bounds are ``None``: some evidence must be wrong,
    or the piece is made up of two.
    """

    earliest: dt.date | None
    latest: dt.date | None
    set_earliest: tuple[AgeEvidence, ...] = ()
    set_latest: tuple[AgeEvidence, ...] = ()
    contradictions: tuple[Contradiction, ...] = ()

    def in_words(self) -> str:
        """Say when it was made, and on what that rests.

        >>> patent = AgeEvidence("patent of 1881 cast in it", not_before=dt.date(1881, 6, 14))
        >>> made_between([patent]).in_words()
        'Made 14 June 1881 or later (patent of 1881 cast in it).'
        """
        if self.contradictions:
            return " ".join(one.in_words() for one in self.contradictions)
        if not (self.earliest or self.latest):
            return "Nothing recorded says when it was made."
        return f"Made {self._when()} ({self._why()})."

    @property
    def when(self) -> str:
        """Return when it was made, without the evidence, or nothing.

        >>> made_between([AgeEvidence("built", dt.date(1899, 1, 1), dt.date(1899, 12, 31))]).when
        'in 1899'
        """
        return self._when() if self.earliest or self.latest else ""

    def _when(self) -> str:
        if not self.latest:
            return f"{_from_words(self.earliest)} or later"
        if not self.earliest:
            return f"{_to_words(self.latest)} or earlier"
        first, last = self.earliest, self.latest
        if (first.month, first.day, last.month, last.day) == (1, 1, 12, 31):
            is_one = first.year == last.year
            return f"in {first.year}" if is_one else f"between {first.year} and {last.year}"
        return f"between {day_words(self.earliest)} and {day_words(self.latest)}"

    def _why(self) -> str:
        labels = [one.label for one in (*self.set_earliest, *self.set_latest)]
        return "; ".join(dict.fromkeys(labels))


def _from_words(day: dt.date | None) -> str:
    """Say the first possible day; the first of a year is that year."""
    return str(day.year) if day and (day.month, day.day) == (1, 1) else day_words(day)


def _to_words(day: dt.date | None) -> str:
    """Say the last possible day; the last of a year is that year."""
    return str(day.year) if day and (day.month, day.day) == (12, 31) else day_words(day)


def made_between(evidence: Iterable[AgeEvidence]) -> MadeBetween:
    """Return the days that all evidence allows, or the pairs that contradict.

    Intervals on a line have a common day exactly if every two of them have (Helly's theorem in
    one dimension), so a smallest contradiction is one statement, or a pair of them.

    >>> builder = AgeEvidence("the builder closed", not_after=dt.date(1908, 12, 31))
    >>> patent = AgeEvidence("patent mark", not_before=dt.date(1902, 3, 4))
    >>> made = made_between([builder, patent])
    >>> made.earliest.year, made.latest.year
    (1902, 1908)
    """
    given = tuple(evidence)
    contradictions = _contradictions(given)
    if contradictions:
        return MadeBetween(None, None, contradictions=contradictions)
    earliest = max((one.not_before for one in given if one.not_before), default=None)
    latest = min((one.not_after for one in given if one.not_after), default=None)
    return MadeBetween(
        earliest,
        latest,
        tuple(one for one in given if earliest and one.not_before == earliest),
        tuple(one for one in given if latest and one.not_after == latest),
    )


def _contradictions(evidence: tuple[AgeEvidence, ...]) -> tuple[Contradiction, ...]:
    return tuple(
        Contradiction(_pair(late, early))
        for late in evidence
        for early in evidence
        if late.not_before and early.not_after and late.not_before > early.not_after
    )


def _pair(late: AgeEvidence, early: AgeEvidence) -> tuple[Statement, ...]:
    after = f"not before {day_words(late.not_before)}"
    before = f"not after {day_words(early.not_after)}"
    if late is early:
        words = f"{late.label}, {after} and {before}"
        return (Statement((late.key,), words, late.source),)
    return (
        Statement((late.key,), f"{late.label}, {after}", late.source),
        Statement((early.key,), f"{early.label}, {before}", early.source),
    )
