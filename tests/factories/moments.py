"""A moment that every made record can stand at."""

import datetime as dt

LONG_AGO = dt.datetime(2026, 4, 1, 9, 0, tzinfo=dt.UTC)
