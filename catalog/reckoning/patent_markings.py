"""Read worn patent markings on castings: candidate days, numbers, and what they say of age."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from math import prod

from catalog.reckoning.patent_numbers import (
    LAST_YEAR,
    NUMBERING_BEGINS,
    TUESDAY,
    TUESDAYS_SINCE,
    YEARS,
    PatentError,
    is_in_table,
    number_range,
    year_range,
)
from catalog.reckoning.patent_readings import (
    DateReading,
    days_fitting,
    find_dates,
    find_years,
    fits,
    plain_characters,
)
from catalog.reckoning.patent_words import (
    age_in_words,
    date_in_words,
    number_in_words,
    other_remarks,
)

PATENTED = ("PAT", "PATS", "PATD", "PAT'D", "PAT'S", "PATENT", "PATENTS", "PATENTED")
PENDING = ("PEND", "PENDG", "PEND'G", "PENDING")
APPLIED = ("APPLIED", "APPLD", "APPL'D", "APLD", "APL'D", "APD", "AP'D", "APP'D")
BRITISH = re.compile(r"\bBRIT|\bENGL|\bGREAT BRITAIN\b|\bG\.? ?B\b|\bU\.? ?K\b")
BRITISH_BY_YEAR = re.compile(
    r"(?<![0-9?,])(?P<figures>[0-9?]{1,3}(?:,?[0-9?]{3})?) +OF +(?P<year>[12][0-9]{3})\b"
)
OWN_SERIES = re.compile(
    r"(?<![A-Z0-9?'])(?:DES(?:IGN)?|D|RE|REISS(?:UE)?|PP|RE?G(?:ISTERE|')?D|RD)\.? *"
    r"(?:NOS?\.? *|N°\.? *|# *)?[0-9?]{1,3}(?:,?[0-9?]{3})*"
)
NUMBER = re.compile(
    r"(?<![0-9?,A-Z/-])(?P<figures>[0-9?]{1,3}(?:,[0-9?]{3})+|[0-9?]{3,8})(?![0-9?,A-Z/-])"
)
# Figures behind "No." are a number, also where a 0 among them could be the O of a worn month.
ANNOUNCED = re.compile(rf"\bNOS?(?:\. *| +){NUMBER.pattern}")
# A bare number with no word of patents beside it may be anything; short ones are left.
LEAST_BARE_FIGURES = 5


@dataclass(frozen=True, slots=True)
class CandidateDay:
    """A day that a worn date may mean."""

    day: date

    @property
    def is_issue_day(self) -> bool:
        """Say whether patents were usually issued on such a day."""
        return self.day.year < TUESDAYS_SINCE or self.day.weekday() == TUESDAY

    @property
    def numbers(self) -> range | None:
        """Return the US numbers to be expected, or None outside the table."""
        if not is_in_table(self.day.year) or self.day < NUMBERING_BEGINS:
            return None
        return number_range(self.day)


@dataclass(frozen=True, slots=True)
class MarkedDate:
    """One date of a marking, with every day that it may mean, issue days first."""

    text: str
    days: tuple[CandidateDay, ...]
    is_order_unsure: bool = False

    @property
    def issue_days(self) -> tuple[CandidateDay, ...]:
        return tuple(candidate for candidate in self.days if candidate.is_issue_day)

    @property
    def years(self) -> tuple[int, ...]:
        return tuple(sorted({candidate.day.year for candidate in self.days}))


@dataclass(frozen=True, slots=True)
class MarkedNumber:
    """One number of a marking, figures with ``?``, and the years it may be of.

    For a British number the year is that of application, and is known only when marked.
    """

    figures: str
    years: tuple[int, ...]
    is_british: bool = False

    @property
    def readings(self) -> int:
        """Count the numbers that may have stood there."""
        return prod(10 for figure in self.figures if figure == "?")


@dataclass(frozen=True, slots=True)
class Marking:
    """What a patent marking says, and what it says of age.

    ``form`` is date, number, date and number, pending, or neither.
    """

    text: str
    dates: tuple[MarkedDate, ...]
    numbers: tuple[MarkedNumber, ...]
    is_pending: bool
    remarks: tuple[str, ...]

    @property
    def form(self) -> str:
        kinds = [name for name, found in (("date", self.dates), ("number", self.numbers)) if found]
        return " and ".join(kinds) or ("pending" if self.is_pending else "neither")

    @property
    def says_patent(self) -> bool:
        """Say whether the marking speaks of a patent at all; figures alone may be anything."""
        words = (*PATENTED, *PENDING, *APPLIED)
        return _has_word(plain_characters(self.text), words)

    @property
    def days(self) -> tuple[CandidateDay, ...]:
        """Return the candidate days of all the dates, issue days first."""
        return _issue_days_first({day.day for marked in self.dates for day in marked.days})

    @property
    def years(self) -> tuple[int, ...]:
        """Return the years that any date or number of the marking may be of."""
        of_dates = {year for marked in self.dates for year in marked.years}
        of_numbers = {year for marked in self.numbers for year in marked.years}
        return tuple(sorted(of_dates | of_numbers))

    @property
    def not_before(self) -> date | None:
        """Return the first day on which the piece can have been marked so.

        A marking is no older than the latest patent on it; of a worn date the
        earliest day that fits counts. None where nothing can be said.
        """
        firsts = [min(day.day for day in marked.days) for marked in self.dates if marked.days]
        firsts += [date(marked.years[0], 1, 1) for marked in self.numbers if marked.years]
        return max(firsts, default=None)

    def agrees_with(self, number: int, issued: date) -> bool:
        """Say whether a US patent of this number and day may be the one that is marked.

        >>> read_marking("PAT'D ?UG 1? 190?").agrees_with(655_838, date(1900, 8, 14))
        True
        """
        on_day = any(candidate.day == issued for candidate in self.days)
        return on_day or any(
            fits(marked.figures, str(number)) and not marked.is_british for marked in self.numbers
        )

    def in_words(self) -> str:
        """Say in sentences what was read and what it says of age."""
        sentences = [
            *(date_in_words(marked.text, marked.days) for marked in self.dates),
            *(
                number_in_words(marked.figures, marked.years, is_british=marked.is_british)
                for marked in self.numbers
            ),
            *self.remarks,
            *age_in_words(self._age_form, self.is_pending, self.not_before),
        ]
        return " ".join(sentences)

    @property
    def _age_form(self) -> str:
        """Return the form as far as it tells of age, which for Britain it does not."""
        only_british = self.form == "number" and all(one.is_british for one in self.numbers)
        return "British number" if only_british else self.form


@lru_cache(maxsize=1024)
def read_marking(text: str) -> Marking:
    """Read a patent marking, ``?`` standing for each illegible character.

    Assumes the English spellings of months met on castings, the American order
    of figures (month, day, year), and US numbers unless the marking names Britain.

    >>> marking = read_marking("PAT'D ?UG 1? 190?")
    >>> marking.form, len(marking.days), marking.days[0].day
    ('date', 100, datetime.date(1900, 8, 14))
    >>> read_marking("PAT. 821,393").years
    (1906,)
    """
    plain = plain_characters(text)
    if not plain:
        raise PatentError("No marking was given; write ? for each character that is worn away.")
    british, rest = _british_numbers(plain)
    rest, own_series = _without_own_series(rest)
    is_patent = _has_word(plain, PATENTED)
    announced = _numbers_in(" ".join(ANNOUNCED.findall(rest)), is_patent=is_patent)
    readings, rest = find_dates(ANNOUNCED.sub(" ", rest))
    years, rest = find_years(rest)
    figures = announced + _numbers_in(rest, is_patent=is_patent)
    is_british = bool(BRITISH.search(plain))
    dates = tuple(_marked_date(reading) for reading in readings + years)
    return Marking(
        text=text,
        dates=dates,
        numbers=british + tuple(_marked_number(one, is_british=is_british) for one in figures),
        is_pending=_has_word(plain, PENDING) or _has_word(plain, APPLIED),
        remarks=other_remarks(own_series, any(marked.is_order_unsure for marked in dates)),
    )


def _marked_date(reading: DateReading) -> MarkedDate:
    """Give a reading its candidate days."""
    days = _issue_days_first(days_fitting(reading))
    return MarkedDate(reading.text.strip(" .,"), days, reading.alternative is not None)


def _marked_number(figures: str, *, is_british: bool) -> MarkedNumber:
    """Give the figures their years, which a British number alone does not tell."""
    return MarkedNumber(figures, () if is_british else _years_of(figures), is_british)


def _british_numbers(text: str) -> tuple[tuple[MarkedNumber, ...], str]:
    """Take out British numbers marked with their year, such as 4321 of 1889."""
    found = tuple(
        MarkedNumber(match["figures"].replace(",", ""), (int(match["year"]),), is_british=True)
        for match in BRITISH_BY_YEAR.finditer(text)
    )
    return found, BRITISH_BY_YEAR.sub(" ", text)


def _issue_days_first(days: Iterable[date]) -> tuple[CandidateDay, ...]:
    """Order days with those first on which patents were issued."""
    candidates = [CandidateDay(day) for day in days]
    return tuple(sorted(candidates, key=lambda one: (not one.is_issue_day, one.day)))


def _without_own_series(text: str) -> tuple[str, tuple[str, ...]]:
    """Set aside designs, reissues, plants and registered designs."""
    found = tuple(" ".join(match.split()) for match in OWN_SERIES.findall(text))
    return OWN_SERIES.sub(" ", text), found


def _numbers_in(text: str, *, is_patent: bool) -> list[str]:
    """Return the figures of the numbers in the text, commas left out."""
    numbers = []
    for match in NUMBER.finditer(text):
        figures = match["figures"].replace(",", "")
        is_marked = is_patent or "," in match["figures"]
        is_long = len(figures) >= LEAST_BARE_FIGURES
        if any(figure.isdigit() for figure in figures) and (is_marked or is_long):
            numbers.append(figures)
    return numbers


def _years_of(figures: str) -> tuple[int, ...]:
    """Return the years of the table with some number that fits the figures."""
    years = range(YEARS[0], LAST_YEAR + 1)
    return tuple(year for year in years if _some_number_fits(figures, year_range(year)))


def _some_number_fits(figures: str, numbers: range) -> bool:
    """Say whether a number of the range fits the figures."""
    least = _least_fitting(figures, max(numbers.start, 10 ** (len(figures) - 1)))
    return least is not None and least < numbers.stop


def _least_fitting(figures: str, low: int) -> int | None:
    """Return the least number from ``low`` on that fits the figures, or None."""
    digits = str(low)
    if len(digits) != len(figures):
        return None
    if fits(figures, digits):
        return low
    for place in range(len(digits) - 1, -1, -1):
        raised = [d for d in "0123456789" if d > digits[place] and fits(figures[place], d)]
        if raised and fits(figures[:place], digits[:place]):
            return int(digits[:place] + raised[0] + figures[place + 1 :].replace("?", "0"))
    return None


def _has_word(text: str, words: tuple[str, ...]) -> bool:
    """Say whether a word of the text, at least half of it legible, may be one of these."""
    tokens = [
        token for token in re.findall(r"[A-Z?']+", text) if token.count("?") * 2 <= len(token)
    ]
    return any(fits(token, word) for token in tokens for word in words)
