"""US patent numbers and days of issue, each computed from the other."""

from bisect import bisect_right
from datetime import date
from math import ceil, floor, sqrt

from catalog.reckoning.patent_tables import FIRST_NUMBER, FROM_MEMORY

YEARS = tuple(FIRST_NUMBER)
FIRST_NUMBERS = tuple(FIRST_NUMBER.values())
# Nothing closes the last year of the table, so it opens no range of its own.
LAST_YEAR = YEARS[-1] - 1
LAST_NUMBER = FIRST_NUMBERS[-1] - 1

# Patent number 1 (USPTO, milestones).
NUMBERING_BEGINS = date(1836, 7, 13)
TUESDAY = 1
TUESDAYS_SINCE = 1848

# How far the count of a year may run ahead of an even pace in the middle of the year,
# as a share of the year: chosen to hold every patent of known number and date that was
# at hand (the widest: 5 % in August 1930, 8 % in May 1849).
PACE_SPREAD = 0.06
EARLY_PACE_SPREAD = 0.10
EVEN_PACE_SINCE = 1860

EXCEPTIONS = (
    "rare exceptions are known: some Christmas weeks between 1850 and 1880, "
    "and two weeks in the summers of 1945 and 1970"
)


class PatentError(ValueError):
    """A patent number, date or code that cannot be used, with the reason in words."""


def read_number(number: int | str) -> int:
    """Read a US patent number as written, with or without commas.

    Designs, plants and reissues are counted in series of their own, so a number
    with letters is refused rather than stripped of them.

    >>> read_number("No. 821,393")
    821393
    """
    text = str(number).strip()
    bare = text.upper().removeprefix("US").strip().removeprefix("NO").lstrip(". ")
    digits = bare.replace(",", "").replace(" ", "")
    if digits.isascii() and digits.isdigit() and int(digits) > 0:
        return int(digits)
    raise PatentError(
        f"“{text}” is not a patent number of figures alone, such as 821,393; designs (D), "
        "plants (PP) and reissues (RE) are numbered separately."
    )


def issue_year(number: int | str) -> int:
    """Tell the year in which a US patent was issued from its number.

    Source: the table of first numbers (USPTO), some years of it from memory.

    >>> issue_year(88_929), issue_year("821,393")
    (1869, 1906)
    """
    value = read_number(number)
    if value > LAST_NUMBER:
        raise PatentError(
            f"No. {value:,} is later than the year table, which ends with {LAST_YEAR} "
            f"and number {LAST_NUMBER:,}."
        )
    return YEARS[bisect_right(FIRST_NUMBERS, value) - 1]


def is_in_table(year: int) -> bool:
    """Say whether the table knows where the numbers of ``year`` begin and end.

    >>> is_in_table(1869), is_in_table(1835)
    (True, False)
    """
    return YEARS[0] <= year <= LAST_YEAR


def is_from_memory(year: int) -> bool:
    """Say whether a bound of the numbers of ``year`` was written from memory.

    >>> is_from_memory(1869), is_from_memory(1903), is_from_memory(1906)
    (False, True, True)
    """
    return year in FROM_MEMORY or year + 1 in FROM_MEMORY


def year_range(year: int) -> range:
    """Return the numbers of the US patents issued in ``year``.

    Some numbers in the range may never have been used.

    >>> year_range(1869)
    range(85503, 98460)
    """
    if not is_in_table(year):
        raise PatentError(
            f"The table of US patent numbers covers {YEARS[0]} to {LAST_YEAR}, not {year}."
        )
    return range(FIRST_NUMBER[year], FIRST_NUMBER[year + 1])


def number_range(day: date) -> range:
    """Return the numbers that a US patent issued on ``day`` may have.

    Assumes an even pace through the year, widened for weeks that were fuller
    than others; since the count is pinned at both ends of the year, the widening
    follows that of a Brownian bridge, ``sqrt(f * (1 - f))``. For a day that is
    no Tuesday the weeks before and after it are both meant.

    >>> 88_929 in number_range(date(1869, 4, 13))
    True
    >>> number_range(date(1869, 4, 13))
    range(88301, 89946)
    """
    numbers = year_range(day.year)
    if day < NUMBERING_BEGINS:
        raise PatentError("US patents were not numbered before 13 July 1836.")
    start, end = _share_of_year(day)
    first = max(0.0, start - _pace_slack(start, day.year))
    last = min(1.0, end + _pace_slack(end, day.year))
    count = len(numbers)
    return range(numbers.start + floor(first * count), numbers.start + ceil(last * count))


def check_number_and_date(number: int | str, issued: date) -> list[str]:
    """List in words what does not agree between a US patent number and its date.

    The answer is a list of warnings, never a refusal: tables have slips, and the
    Patent Office has made exceptions.

    >>> check_number_and_date(88_929, date(1869, 4, 13))
    []
    >>> check_number_and_date("88,929", date(1870, 4, 12))
    ['No. 88,929 belongs to 1869 (85,503 to 98,459), not 1870.']
    """
    warnings = _weekday_warnings(issued)
    try:
        value = read_number(number)
        warnings += _year_warnings(value, issued)
    except PatentError as error:
        warnings.append(str(error))
    return warnings


def _weekday_warnings(issued: date) -> list[str]:
    """Warn of a day on which patents were not usually issued."""
    if issued.year < TUESDAYS_SINCE or issued.weekday() == TUESDAY:
        return []
    return [
        f"{issued:%-d %B %Y} was a {issued:%A}; US patents have been issued on Tuesdays "
        f"since {TUESDAYS_SINCE} ({EXCEPTIONS})."
    ]


def _year_warnings(value: int, issued: date) -> list[str]:
    """Warn of a number that is strange for the year or the week."""
    year = issue_year(value)
    doubt = " That bound of the table is from memory." if is_from_memory(year) else ""
    numbers = year_range(year)
    if year != issued.year:
        bounds = f"{numbers.start:,} to {numbers.stop - 1:,}"
        return [f"No. {value:,} belongs to {year} ({bounds}), not {issued.year}.{doubt}"]
    expected = number_range(issued)
    if value in expected:
        return []
    return [
        f"No. {value:,} is of {year}, but about {issued:%-d %B} numbers from "
        f"{expected.start:,} to {expected.stop - 1:,} would be expected.{doubt}"
    ]


def _share_of_year(day: date) -> tuple[float, float]:
    """Return the shares of the year's patents issued before and through ``day``."""
    first = max(date(day.year, 1, 1), NUMBERING_BEGINS)
    days = (date(day.year + 1, 1, 1) - first).days
    passed = (day - first).days
    if day.year < TUESDAYS_SINCE:
        return passed / days, (passed + 1) / days
    to_first_tuesday = (TUESDAY - first.weekday()) % 7
    tuesdays = (days - to_first_tuesday + 6) // 7
    before = (passed - to_first_tuesday + 6) // 7
    since = before if day.weekday() == TUESDAY else max(0, before - 1)
    return since / tuesdays, min(before + 1, tuesdays) / tuesdays


def _pace_slack(share: float, year: int) -> float:
    """Return how far the count may be from an even pace when ``share`` is past."""
    spread = PACE_SPREAD if year >= EVEN_PACE_SINCE else EARLY_PACE_SPREAD
    return 2 * spread * sqrt(share * (1 - share))
