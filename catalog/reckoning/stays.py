"""When a visit goes on, when it is over, and from when on things are news to the visitor."""

import datetime as dt
from dataclasses import dataclass, replace

# A shift has a dinner hour in it, and whoever comes back after one has not been away.
OVER_AFTER = dt.timedelta(hours=4)
# Often enough to know when somebody was here, and rare enough to cost nothing.
NOTED_EVERY = dt.timedelta(minutes=30)


@dataclass(frozen=True, slots=True)
class Stay:
    """One person's visit: when they looked last, and since when others' doings are news.

    ``since`` is empty on the first visit of all, when everything would be news.
    """

    opened_at: dt.datetime
    since: dt.datetime | None = None
    is_over: bool = False


def opened(stay: Stay | None, at: dt.datetime) -> Stay:
    """Return the stay as it is once somebody has looked at this moment.

    A visit is over when nobody looked for four hours, or when its end was said. What counts as
    seen is what was there at the last look, so that nothing is passed over in silence: the same
    is rather told twice. Within half an hour the very same stay is returned, and there is
    nothing to note.

    >>> noon = dt.datetime(2026, 4, 1, 12, 0)
    >>> first = opened(None, noon)
    >>> opened(first, noon + dt.timedelta(minutes=29)) is first
    True
    >>> opened(first, noon + dt.timedelta(hours=2)).since is None
    True
    >>> opened(first, noon + dt.timedelta(hours=5)).since == noon
    True
    """
    if stay is None:
        return Stay(at)
    if stay.is_over or at - stay.opened_at > OVER_AFTER:
        return Stay(at, since=stay.opened_at)
    if at - stay.opened_at > NOTED_EVERY:
        return replace(stay, opened_at=at)
    return stay
