"""Find the first and last day that a date written in parts can mean."""

import calendar
from collections.abc import Iterator
from itertools import product

Day = tuple[int, int, int]
"""Year, month and day; the year may lie outside what ``datetime.date`` can hold."""

MONTH_NAMES = tuple(calendar.month_name)

# Months of the seasons are the meteorological ones (World Meteorological Organization and the
# US National Weather Service: spring is March to May in the north). EDTF says that 21-24 are
# independent of location and gives no days, so a convention has to be chosen. Winter begins in
# December of the year written and ends with February of the next.
SEASON_MONTHS = {
    **{code: (3 + 3 * (code - 21), 3) for code in range(21, 25)},
    **{code: (3 + 3 * (code - 25), 3) for code in range(25, 29)},
    29: (9, 3),
    30: (12, 3),
    31: (3, 3),
    32: (6, 3),
    **{code: (1 + 3 * (code - 33), 3) for code in range(33, 37)},
    **{code: (1 + 4 * (code - 37), 4) for code in range(37, 40)},
    **{code: (1 + 6 * (code - 40), 6) for code in range(40, 42)},
}


class DateError(ValueError):
    """Refuse a date, with a sentence that says what was wrong and what would do."""


def month_length(year: int, month: int) -> int:
    """Count the days of a month in the Gregorian calendar, carried back before its start.

    >>> month_length(1900, 2), month_length(2000, 2), month_length(-4, 2)
    (28, 29, 29)
    """
    if month == 2:
        return 29 if calendar.isleap(year) else 28
    return 30 if month in (4, 6, 9, 11) else 31


def day_after(day: Day) -> Day:
    """Return the next day.

    >>> day_after((1899, 12, 31))
    (1900, 1, 1)
    """
    year, month, number = day
    if number < month_length(year, month):
        return year, month, number + 1
    return (year, month + 1, 1) if month < 12 else (year + 1, 1, 1)


def day_before(day: Day) -> Day:
    """Return the day before.

    >>> day_before((1900, 3, 1))
    (1900, 2, 28)
    """
    year, month, number = day
    if number > 1:
        return year, month, number - 1
    year, month = (year, month - 1) if month > 1 else (year - 1, 12)
    return year, month, month_length(year, month)


def extreme_day(year: str, month: str, day: str, *, last: bool) -> Day:
    """Return the first or last real day that fits, each ``X`` standing for any figure.

    An empty ``month`` or ``day`` means the whole year or month. Days that do not exist are
    passed over, so the answer is exact and never 30 February.

    >>> extreme_day("156X", "02", "29", last=True)
    (1568, 2, 29)
    """
    months = _fitting(month or "XX", 12, "month", last=last)
    days = _fitting(day or "XX", 31, "day", last=last)
    for number in _years(year, last=last):
        for in_month in months:
            length = month_length(number, in_month)
            fitting = next((one for one in days if one <= length), None)
            if fitting:
                return number, in_month, fitting
    raise DateError(_no_such_day(year, month, day))


def season_bounds(first_year: int, last_year: int, code: str) -> tuple[Day, Day]:
    """Return the first and last day of a season or part of a year (codes 21 to 41).

    >>> season_bounds(1911, 1911, "24")
    ((1911, 12, 1), (1912, 2, 29))
    """
    if not code.isdigit() or int(code) not in SEASON_MONTHS:
        raise DateError(
            f"There is no month {code}: months run from 01 to 12, and 21 to 24 stand for "
            "spring, summer, fall and winter."
        )
    begin, months = SEASON_MONTHS[int(code)]
    years, month = divmod(begin + months - 2, 12)
    end_year = last_year + years
    return (first_year, begin, 1), (end_year, month + 1, month_length(end_year, month + 1))


def _fitting(mask: str, highest: int, unit: str, *, last: bool) -> list[int]:
    numbers = range(highest, 0, -1) if last else range(1, highest + 1)
    fitting = [number for number in numbers if _fits(f"{number:02}", mask)]
    if not fitting:
        raise DateError(f"There is no {unit} {mask}: {unit}s run from 01 to {highest}.")
    return fitting


def _fits(figures: str, mask: str) -> bool:
    return all(wanted in ("X", figure) for figure, wanted in zip(figures, mask, strict=True))


def _years(mask: str, *, last: bool) -> Iterator[int]:
    """Yield the years that fit in order of time, from the end asked for."""
    sign, figures = (-1, mask[1:]) if mask.startswith("-") else (1, mask)
    falling = last == (sign == 1)
    choices = [
        ("9876543210" if falling else "0123456789") if one == "X" else one for one in figures
    ]
    for picked in product(*choices):
        yield sign * int("".join(picked))


def _no_such_day(year: str, month: str, day: str) -> str:
    if "X" in year + month + day:
        return f"No day of the calendar fits {year}-{month}-{day}."
    name = f"{MONTH_NAMES[int(month)]} {year}"
    return (
        f"{name} has {month_length(int(year), int(month))} days, so there is no {int(day)} {name}."
    )
