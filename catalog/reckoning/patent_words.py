"""Sentences about worn patent markings."""

from collections.abc import Sequence
from datetime import date
from typing import Protocol

MOST_SHOWN = 6

DATE_FORM = (
    "In the United States goods were marked with the date of the patent from 1842 (from memory) "
    "and with its number from April 1927, so a date suggests a pattern made before about 1927."
)
NUMBER_FORM = (
    "A number in place of a date suggests a pattern made after about 1927, when the rule of "
    "marking changed; some makers gave numbers earlier."
)
BOTH_FORMS = (
    "In the United States goods were marked with the date from 1842 (from memory) and with the "
    "number from April 1927; both together suggest the years about that change."
)
BRITISH_FORM = "The US rule of marking with numbers from 1927 says nothing of a British number."
PENDING_FORM = (
    "A patent had been applied for and not yet granted when the piece was marked: it was made in "
    "the few years before a grant, or no grant followed."
)
NEITHER_FORM = (
    "No date and no number of a patent can be read, so the marking says nothing of age; look for "
    "figures under paint and on the other side."
)
PATTERN_CAUTION = "A pattern often stayed in use long after (common practice, no source)."
DAY_OR_MONTH = "Figures alone may give the month or the day first; days of both orders are counted."


class Candidate(Protocol):
    """A day with the numbers of its week."""

    @property
    def day(self) -> date: ...
    @property
    def is_issue_day(self) -> bool: ...
    @property
    def numbers(self) -> range | None: ...


def date_in_words(text: str, days: Sequence[Candidate]) -> str:
    """Say which days a date may mean, with the numbers of the likely ones.

    >>> date_in_words("FEB 30 1889", ())
    '“FEB 30 1889” is no day of the calendar; read it again.'
    """
    if not days:
        return f"“{text}” is no day of the calendar; read it again."
    issue_days = [candidate for candidate in days if candidate.is_issue_day]
    if not issue_days:
        return f"“{text}”: {_days_in_words(days)}, though US patents were not usually issued then."
    if len(days) == 1:
        return f"“{text}”: {_days_in_words(days)}."
    return (
        f"“{text}” fits {len(days):,} days, {len(issue_days):,} of them usual days of issue "
        f"(Tuesdays, from 1848): {_days_in_words(issue_days)}."
    )


def number_in_words(figures: str, years: Sequence[int], *, is_british: bool = False) -> str:
    """Say which years a number may be of.

    >>> number_in_words("821393", (1906,))
    'No. 821,393 is a US number of 1906.'
    >>> number_in_words("9999999", ())
    'No. 9,999,999 is in no year of the table of US numbers.'
    >>> number_in_words("4321", (1889,), is_british=True)
    'British No. 4,321 of 1889, the year of application.'
    """
    groups = [figures[::-1][i : i + 3][::-1] for i in range(0, len(figures), 3)]
    shown = ",".join(groups[::-1])
    listed = _listed([str(year) for year in years])
    if is_british and years:
        return f"British No. {shown} of {listed}, the year of application."
    if is_british and len(figures) >= 6:
        return f"British No. {shown}, of 1916 or later."
    if is_british:
        return (
            f"British No. {shown}; British numbers began anew each year until 1915, so one of up "
            "to 100,000 needs its year of application."
        )
    if not years:
        return f"No. {shown} is in no year of the table of US numbers."
    return f"No. {shown} {'may be' if '?' in figures else 'is'} a US number of {listed}."


def age_in_words(form: str, is_pending: bool, not_before: date | None) -> list[str]:
    """Say what the form of a marking and its dates tell of the age of the piece."""
    forms = {
        "date": DATE_FORM,
        "number": NUMBER_FORM,
        "date and number": BOTH_FORMS,
        "British number": BRITISH_FORM,
        "pending": PENDING_FORM,
        "neither": NEITHER_FORM,
    }
    sentences = [f"Not made before {not_before:%-d %B %Y}."] if not_before else []
    sentences.append(forms[form])
    if is_pending and form != "pending":
        sentences.append("Another patent had been applied for and not yet granted.")
    return sentences if form in ("pending", "neither") else [*sentences, PATTERN_CAUTION]


def other_remarks(own_series: Sequence[str], is_order_unsure: bool) -> tuple[str, ...]:
    """Say what was seen in a marking besides dates and US numbers."""
    remarks = [
        f"“{number}” is of a series of its own (design, reissue, plant or registered design) and "
        "is not looked up here."
        for number in own_series
    ]
    if is_order_unsure:
        remarks.append(DAY_OR_MONTH)
    return tuple(remarks)


def _days_in_words(days: Sequence[Candidate]) -> str:
    """List days, each with the US numbers to be expected."""
    return _listed([_day_in_words(candidate) for candidate in days])


def _day_in_words(candidate: Candidate) -> str:
    """Name a day, its weekday when it is no issue day, and the numbers of its week."""
    numbers = candidate.numbers
    weekday = "" if candidate.is_issue_day else f"{candidate.day:%A} "
    shown = "" if numbers is None else f" (about No. {numbers.start:,} to {numbers.stop - 1:,})"
    return f"{weekday}{candidate.day:%-d %B %Y}{shown}"


def _listed(items: Sequence[str]) -> str:
    """Join items, the first few of a long list.

    >>> _listed(["a", "b", "c"])
    'a, b or c'
    """
    if not items:
        return ""
    if len(items) > MOST_SHOWN:
        return ", ".join(items[:MOST_SHOWN]) + f" and {len(items) - MOST_SHOWN:,} more"
    return " or ".join(filter(None, (", ".join(items[:-1]), items[-1])))
