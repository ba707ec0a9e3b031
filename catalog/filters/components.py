"""Choosing among components."""

import django_filters
from django.db.models import QuerySet

from catalog.models import Component, Hazard
from catalog.models.components import ComponentQuerySet
from catalog.queries.components import holding_words


class ComponentFilter(django_filters.FilterSet):  # type: ignore[misc]
    words = django_filters.CharFilter(method="by_words", label="Name or other name holds")
    hazard = django_filters.ModelChoiceFilter(
        field_name="hazards", queryset=Hazard.objects.all(), empty_label="any or none"
    )

    class Meta:
        model = Component
        fields = ["words", "hazard"]

    def by_words(self, rows: ComponentQuerySet, _: str, words: str) -> QuerySet[Component]:
        return holding_words(rows, words)
