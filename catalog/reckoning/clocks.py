"""Setting right the times that a phone with a wrong clock has written down."""

import datetime as dt


def corrected_moment(
    written: dt.datetime, *, sent: dt.datetime, received: dt.datetime
) -> dt.datetime:
    """Return when something happened that a phone wrote down as ``written``.

    ``sent`` is the phone's own time at the sending and ``received`` the server's at the
    arrival, so that their difference is how wrong the phone's clock is. Assumes that the
    clock was as wrong at the writing as at the sending, and that nothing was written after
    it was sent. The method is the offset of a single message as in network time protocols,
    with the time under way, which is seconds, neglected (common practice, no source).

    >>> now = dt.datetime(2026, 4, 2, 12, 0)
    >>> a_day_fast = now + dt.timedelta(days=1)
    >>> hour = dt.timedelta(hours=1)
    >>> corrected_moment(a_day_fast - hour, sent=a_day_fast, received=now)
    datetime.datetime(2026, 4, 2, 11, 0)
    >>> corrected_moment(a_day_fast + hour, sent=a_day_fast, received=now)
    datetime.datetime(2026, 4, 2, 12, 0)
    """
    age = max(sent - written, dt.timedelta(0))
    return received - age
