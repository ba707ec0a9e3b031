"""Choosing among vehicle classes."""

import django_filters
from django.db.models import Q, QuerySet

from catalog.models import VehicleClass
from catalog.models.vehicles import VehicleClassQuerySet


class VehicleClassFilter(django_filters.FilterSet):  # type: ignore[misc]
    words = django_filters.CharFilter(method="by_words", label="Designation or name holds")

    class Meta:
        model = VehicleClass
        fields = ["words"]

    def by_words(self, rows: VehicleClassQuerySet, _: str, words: str) -> QuerySet[VehicleClass]:
        return rows.filter(Q(designation__icontains=words) | Q(name__icontains=words))
