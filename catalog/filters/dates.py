"""Choosing and ordering by vague dates, whose bounds the record keeps."""

from typing import Any

import django_filters
from django.db.models import F, Q, QuerySet

from catalog.forms.fields import DateWords, VagueDateField


class DateFilter(django_filters.Filter):  # type: ignore[misc]
    """What may fall within a date as people say it: 1899, the 1890s, between 1920 and 1931.

    A record of which no date is known is left out; one that is only known to be before or after
    some day stays as long as it can be meant.
    """

    field_class = VagueDateField

    def filter(self, rows: QuerySet[Any], words: DateWords) -> QuerySet[Any]:
        """Leave out what surely lies before or after the date."""
        date = words.date if isinstance(words, DateWords) else None
        if date is None:
            return rows
        within = ~Q(date_edtf="")
        if date.latest:
            within &= Q(date_earliest__isnull=True) | Q(date_earliest__lte=date.latest)
        if date.earliest:
            within &= Q(date_latest__isnull=True) | Q(date_latest__gte=date.earliest)
        return rows.filter(within)


class DateOrderFilter(django_filters.ChoiceFilter):  # type: ignore[misc]
    """The order of a list by date, with what has none at the end."""

    def __init__(self, usual: str) -> None:
        choices = [("oldest", "oldest first"), ("newest", "newest first")]
        super().__init__(choices=choices, label="Order", empty_label=usual)

    def filter(self, rows: QuerySet[Any], chosen: str) -> QuerySet[Any]:
        """Order by the first possible day, or by the last."""
        if chosen == "oldest":
            return rows.order_by(F("date_earliest").asc(nulls_last=True), "pk")
        if chosen == "newest":
            return rows.order_by(F("date_latest").desc(nulls_last=True), "pk")
        return rows
