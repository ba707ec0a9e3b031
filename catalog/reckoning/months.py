"""Months of the calendar, one after another."""

import datetime as dt


def month_of(day: dt.date) -> dt.date:
    """Return the first day of the month in which ``day`` lies.

    >>> month_of(dt.date(2026, 4, 17))
    datetime.date(2026, 4, 1)
    """
    return day.replace(day=1)


def month_after(first: dt.date) -> dt.date:
    """Return the first day of the month after the one that begins with ``first``.

    >>> month_after(dt.date(2026, 12, 1))
    datetime.date(2027, 1, 1)
    """
    return dt.date(first.year + first.month // 12, first.month % 12 + 1, 1)


def months_between(begin: dt.date, end: dt.date, most: int) -> tuple[dt.date, ...]:
    """Return the first days of the months from ``begin`` to ``end``, the last ``most`` of them.

    >>> months_between(dt.date(2025, 11, 30), dt.date(2026, 1, 2), most=24)[0]
    datetime.date(2025, 11, 1)
    >>> len(months_between(dt.date(1898, 1, 1), dt.date(2026, 1, 2), most=24))
    24
    """
    last = month_of(end)
    count = min(most, (end.year - begin.year) * 12 + end.month - begin.month + 1)
    months = []
    for back in range(max(0, count) - 1, -1, -1):
        place = last.year * 12 + last.month - 1 - back
        months.append(dt.date(place // 12, place % 12 + 1, 1))
    return tuple(months)
