"""Country and kind codes of patents in words, and British numbering by year."""

import datetime as dt
from dataclasses import dataclass

from catalog.reckoning.patent_numbers import PatentError
from catalog.reckoning.patent_tables import (
    COUNTRIES,
    KIND_LETTERS,
    US_KINDS_BEFORE_2001,
    US_KINDS_FROM_2001,
)

NEW_US_KINDS_FROM = dt.date(2001, 1, 2)

BRITISH_YEARLY_FROM = 1852
BRITISH_CONTINUOUS_FROM = 1916
# From memory: the continuous series began here.
BRITISH_CONTINUOUS_START = 100_001


@dataclass(frozen=True, slots=True)
class BritishNumber:
    """A British patent number; ``year`` is part of it while numbers began anew each year."""

    number: int
    year: int | None = None

    def __str__(self) -> str:
        return f"{self.number:,}" if self.year is None else f"{self.number:,} of {self.year}"


def british_number(number: int, year: int | None = None) -> BritishNumber:
    """Make the key of a British patent from its number and year of application.

    British numbers began anew each year from 1852 to 1915 and belong to the year
    of application, not of grant; from 1916 they run on from 100,001 (from memory),
    and the year is no part of the number.

    >>> str(british_number(4321, 1889)), str(british_number(123_456, 1918))
    ('4,321 of 1889', '123,456')
    """
    if number < 1:
        raise PatentError(f"British patents are numbered from 1, not {number}.")
    if number >= BRITISH_CONTINUOUS_START:
        return _continuous_british_number(number, year)
    if year is None:
        raise PatentError(
            f"British No. {number:,} needs its year: numbers began anew each year until 1915."
        )
    if year >= BRITISH_CONTINUOUS_FROM:
        raise PatentError(
            f"British numbers of {year} are above 100,000; No. {number:,} belongs to a year "
            "before 1916."
        )
    return BritishNumber(number, year)


def british_numbering(year: int) -> str:
    """Say in words how British patents of ``year`` are numbered.

    >>> british_numbering(1889)
    'British patents of 1889 are numbered from 1 within the year of application.'
    """
    if year < BRITISH_YEARLY_FROM:
        return "British patents before October 1852 were numbered afterwards, in one series."
    if year < BRITISH_CONTINUOUS_FROM:
        return f"British patents of {year} are numbered from 1 within the year of application."
    return "British patents from 1916 are numbered in one series from 100,001 (from memory)."


def is_user_assigned(code: str) -> bool:
    """Say whether a two-letter code is left to its users, as XZ is.

    ISO 3166-1 leaves AA, QM to QZ, XA to XZ and ZZ to users; WIPO ST.3 has since
    taken XN, XU, XV and XX for itself.

    >>> is_user_assigned("XZ"), is_user_assigned("XN"), is_user_assigned("US")
    (True, False, False)
    """
    in_series = "QM" <= code <= "QZ" or "XA" <= code <= "XZ" or code in ("AA", "ZZ")
    return len(code) == 2 and code.isalpha() and in_series and code not in COUNTRIES


def country_in_words(code: str) -> str:
    """Name the country or organization of a WIPO ST.3 code.

    >>> country_in_words("gb"), country_in_words("XZ")
    ('United Kingdom', 'user-assigned code XZ, no real country')
    """
    key = code.strip().upper()
    if key in COUNTRIES:
        return COUNTRIES[key]
    if is_user_assigned(key):
        return f"user-assigned code {key}, no real country"
    raise PatentError(f"“{code}” is not a country code of WIPO ST.3 that this catalog knows.")


def kind_in_words(country: str, kind: str, issued: dt.date | None = None) -> str:
    """Say in words what a WIPO ST.16 kind code means.

    The meaning of US codes changed on 2 January 2001 (B1 had been a reexamination
    certificate), so ``issued`` matters; without it both meanings are given.

    >>> kind_in_words("US", "A", dt.date(1906, 5, 22))
    'patent'
    >>> kind_in_words("US", "B1")
    'reexamination certificate, first (before 2001); patent, application not published before'
    >>> kind_in_words("GB", "A")
    'patent, first publication'
    """
    key = kind.strip().upper()
    words = _us_kind(key, issued) if country.strip().upper() == "US" else ""
    words = words or KIND_LETTERS.get(key[:1], "")
    if not words or len(key) > 2 or not (key[1:] or "0").isdigit():
        raise PatentError(f"“{kind}” is not a kind code of WIPO ST.16, such as A or B1.")
    return words


def _us_kind(key: str, issued: dt.date | None) -> str:
    """Return the meaning of a US kind code, in its time or in both times."""
    before = US_KINDS_BEFORE_2001.get(key, "")
    after = US_KINDS_FROM_2001.get(key, "")
    if issued is not None:
        return before if issued < NEW_US_KINDS_FROM else after
    if before and after:
        return f"{before} (before 2001); {after}"
    return before or after


def _continuous_british_number(number: int, year: int | None) -> BritishNumber:
    """Check a number of the continuous series against the year it is said to be of."""
    if year is not None and year < BRITISH_CONTINUOUS_FROM:
        raise PatentError(f"No British year before 1916 reached No. {number:,}; check {year}.")
    return BritishNumber(number)
