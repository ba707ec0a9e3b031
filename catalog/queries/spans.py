"""A stretch of time in the history, and whose doings in it are asked for."""

import datetime as dt
from dataclasses import dataclass
from typing import Any

from django.db.models import F, QuerySet, Value
from django.db.models.functions import Coalesce
from django.utils import timezone


@dataclass(frozen=True, slots=True)
class Span:
    """From ``begin`` up to ``end``, by one member, by all others than one, or by anybody."""

    begin: dt.datetime
    end: dt.datetime | None = None
    by: int | None = None
    but_by: int | None = None

    def of(self, rows: QuerySet[Any]) -> QuerySet[Any]:
        """Return the entries of a history that were written in it, newest first.

        What was noted on a phone without a signal counts from when it arrived: nobody here could
        know of it before. Who wrote it is compared in a way that no index answers, since that of
        the date leaves far fewer entries to look at.
        """
        found = rows.filter(history_date__gte=self.begin)
        if self.end is not None:
            found = found.filter(history_date__lt=self.end)
        if self.by is not None or self.but_by is not None:
            found = found.alias(writer=Coalesce(F("history_user_id"), Value(0)))
        if self.by is not None:
            found = found.filter(writer=self.by)
        if self.but_by is not None:
            found = found.exclude(writer=self.but_by)
        return found.order_by("-history_date", "-history_id")


def midnight(day: dt.date) -> dt.datetime:
    """Return the moment at which a day begins here."""
    return timezone.make_aware(dt.datetime.combine(day, dt.time.min))
