"""How long a US patent lasted: the day of expiry, with the statute named."""

import calendar
import datetime as dt
from dataclasses import dataclass

from catalog.reckoning.patent_numbers import PatentError

ACT_OF_1790 = dt.date(1790, 4, 10)
ACT_OF_1836 = dt.date(1836, 7, 4)
ACT_OF_1861 = dt.date(1861, 3, 2)
TERM_FROM_FILING = dt.date(1995, 6, 8)
# A term of seventeen years that had not run out by 8 June 1995 began on this day or later.
STILL_IN_FORCE = dt.date(1978, 6, 8)

EARLY_ACTS = "Patent Acts of 1790 and 1793: 14 years from grant (from memory)"
STATUTE_OF_1836 = "Patent Act of 4 July 1836, section 5: 14 years from grant"
STATUTE_OF_1861 = "Act of 2 March 1861, section 16: 17 years from grant"
STATUTE_OF_1994 = "35 U.S.C. 154(a)(2), in effect 8 June 1995: 20 years from filing"
TRANSITION = (
    "35 U.S.C. 154(c)(1), in effect 8 June 1995: 17 years from grant or 20 from filing, "
    "whichever is longer"
)
LEAP_DAY_RULE = (
    "A term that begins on 29 February ends on the last day of February when the last year "
    "has no 29th (a rule of this catalog)."
)
NO_FILING_DATE = (
    "The day of filing is not given; from 8 June 1995 it decides the term, so this is only "
    "the term counted from the grant."
)


@dataclass(frozen=True, slots=True)
class Expiry:
    """The day on which a patent expired, and why that day.

    ``extended`` is the day to which the term could be extended, where the statute
    allowed it; whether it was is for the record to say.
    """

    date: dt.date
    statute: str
    extended: dt.date | None = None
    notes: tuple[str, ...] = ()

    def in_words(self) -> str:
        """Say the day, the statute and the notes in sentences.

        >>> expiry(dt.date(1906, 5, 22)).in_words()
        'Expired 22 May 1923 (Act of 2 March 1861, section 16: 17 years from grant).'
        """
        extension = (
            f"By an extension of seven years it could last until {self.extended:%-d %B %Y}."
            if self.extended
            else ""
        )
        first = f"Expired {self.date:%-d %B %Y} ({self.statute})."
        return " ".join(filter(None, (first, extension, *self.notes)))


def expiry(issued: dt.date, *, filed: dt.date | None = None) -> Expiry:
    """Compute when a US patent for an invention expired, and name the statute.

    Assumes that it was not cut short by a disclaimer, a fee unpaid or an earlier
    foreign patent, nor extended. Designs had other terms. Sources: the acts named
    in the answer. The day of expiry bears the same number as the day of grant.

    >>> expiry(dt.date(1869, 4, 13)).date
    datetime.date(1886, 4, 13)
    >>> expiry(dt.date(1999, 3, 2), filed=dt.date(1996, 1, 9)).date
    datetime.date(2016, 1, 9)
    """
    if issued < ACT_OF_1790:
        raise PatentError(f"No US patents were granted before 10 April 1790; {issued} is earlier.")
    if filed is not None and filed > issued:
        raise PatentError(f"A patent issued on {issued} cannot have been filed later, on {filed}.")
    if filed is not None and filed >= TERM_FROM_FILING:
        return _term(filed, 20, STATUTE_OF_1994)
    if issued < ACT_OF_1861:
        return _early_term(issued)
    if issued >= STILL_IN_FORCE:
        return _transitional_term(issued, filed)
    return _term(issued, 17, STATUTE_OF_1861)


def years_later(day: dt.date, years: int) -> dt.date:
    """Return the same day ``years`` later, 28 February where there is no 29th.

    >>> years_later(dt.date(1876, 2, 29), 17)
    datetime.date(1893, 2, 28)
    """
    year = day.year + years
    if (day.month, day.day) == (2, 29) and not calendar.isleap(year):
        return dt.date(year, 2, 28)
    return day.replace(year=year)


def _term(start: dt.date, years: int, statute: str, *notes: str) -> Expiry:
    """Build the answer for a term of ``years`` counted from ``start``."""
    end = years_later(start, years)
    leap = (LEAP_DAY_RULE,) if end.day != start.day else ()
    return Expiry(end, statute, notes=leap + notes)


def _early_term(issued: dt.date) -> Expiry:
    """Build the answer for the terms of fourteen years, with their extension."""
    if issued < ACT_OF_1836:
        return _term(issued, 14, EARLY_ACTS)
    plain = _term(issued, 14, STATUTE_OF_1836)
    return Expiry(plain.date, plain.statute, years_later(issued, 21), plain.notes)


def _transitional_term(issued: dt.date, filed: dt.date | None) -> Expiry:
    """Take the longer term for patents in force, or applied for, on 8 June 1995."""
    from_grant = _term(issued, 17, TRANSITION)
    if filed is None:
        return _term(issued, 17, TRANSITION, NO_FILING_DATE)
    from_filing = _term(filed, 20, TRANSITION)
    return max(from_grant, from_filing, key=lambda term: term.date)
