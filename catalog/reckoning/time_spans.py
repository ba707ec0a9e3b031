"""Say lengths of time between vague dates in plain words."""

_YEAR = 365.2425
_MONTH = _YEAR / 12


def span_words(least: int | None, greatest: int | None) -> str:
    """Say how long something lasted, from its least and greatest number of days.

    The least is rounded down and the greatest up, so that what is said stays true.

    >>> span_words(6575, 7300)
    'at least 18 years and at most 20 years'
    >>> span_words(0, 45)
    'at most 45 days'
    """
    low = f"at least {_length(least, up=False)}" if least else ""
    high = f"at most {_length(greatest, up=True)}" if greatest is not None else ""
    return " and ".join(part for part in (low, high) if part) or "an unknown time"


def _length(days: int, *, up: bool) -> str:
    if days < 60:
        return _counted(days, "day")
    size, unit = (_MONTH, "month") if days < 2 * _YEAR else (_YEAR, "year")
    whole = int(days / size)
    return _counted(whole + (up and days > round(whole * size)), unit)


def _counted(number: int, unit: str) -> str:
    return f"{number} {unit}" if number == 1 else f"{number} {unit}s"
