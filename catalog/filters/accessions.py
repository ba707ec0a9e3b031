"""Choosing among accessions."""

import django_filters
from django.db.models import Q

from catalog.filters.dates import DateFilter, DateOrderFilter
from catalog.models import Accession
from catalog.models.accessions import AccessionQuerySet


class AccessionFilter(django_filters.FilterSet):  # type: ignore[misc]
    words = django_filters.CharFilter(method="hold", label="From, or what came")
    method = django_filters.ChoiceFilter(choices=Accession.Method.choices, empty_label="any way")
    title_status = django_filters.ChoiceFilter(
        choices=Accession.Title.choices, label="Title", empty_label="any title"
    )
    is_open = django_filters.ChoiceFilter(
        choices=[("true", "still being taken in"), ("false", "finished")],
        method="taken_in",
        label="Taking in",
        empty_label="either",
    )
    year = django_filters.NumberFilter(label="Year of the number")

    date = DateFilter(label="Received")
    order = DateOrderFilter("newest number first")

    class Meta:
        model = Accession
        fields = ["words", "method", "title_status", "is_open", "year", "date", "order"]

    def hold(self, rows: AccessionQuerySet, _name: str, words: str) -> AccessionQuerySet:
        return rows.filter(
            Q(summary__icontains=words)
            | Q(party__name__icontains=words)
            | Q(pk__in=Accession.objects.filter(stated_lines__text__icontains=words))
        )

    def taken_in(self, rows: AccessionQuerySet, _name: str, chosen: str) -> AccessionQuerySet:
        return rows.filter(is_open=chosen == "true")
