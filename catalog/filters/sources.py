"""Choosing among sources."""

import django_filters
from django.db.models import Q

from catalog.filters.dates import DateFilter, DateOrderFilter
from catalog.models import Source
from catalog.models.sources import SourceQuerySet


class SourceFilter(django_filters.FilterSet):  # type: ignore[misc]
    words = django_filters.CharFilter(method="hold", label="Words in it")
    kind = django_filters.ChoiceFilter(choices=Source.Kind.choices, empty_label="any kind")

    date = DateFilter(label="Made")
    order = DateOrderFilter("by title")

    class Meta:
        model = Source
        fields = ["words", "kind", "date", "order"]

    def hold(self, rows: SourceQuerySet, _name: str, words: str) -> SourceQuerySet:
        return rows.filter(
            Q(title__icontains=words)
            | Q(creator__icontains=words)
            | Q(reference_number__icontains=words)
            | Q(notes__icontains=words)
        )
