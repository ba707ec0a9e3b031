"""Choosing among patents."""

import django_filters

from catalog.models import Patent


class PatentFilter(django_filters.FilterSet):  # type: ignore[misc]
    title = django_filters.CharFilter(lookup_expr="icontains", label="Title holds")
    country = django_filters.AllValuesFilter(label="Country", empty_label="every country")

    class Meta:
        model = Patent
        fields = ["title", "country"]
