"""Choosing among people and organizations."""

import django_filters

from catalog.models import Party


class PartyFilter(django_filters.FilterSet):  # type: ignore[misc]
    name = django_filters.CharFilter(lookup_expr="icontains", label="Name holds")
    kind = django_filters.ChoiceFilter(choices=Party.Kind.choices, empty_label="either kind")

    class Meta:
        model = Party
        fields = ["name", "kind"]
