"""Choosing among parts; every choice stands in the address, so that a list can be sent."""

from collections.abc import Mapping
from typing import Any

import django_filters
from django.db.models import Q, QuerySet

from catalog.forms.choices import ComponentSelect, SearchSelect
from catalog.models import (
    Accession,
    Component,
    Hazard,
    Location,
    Part,
    Vehicle,
    VehicleClass,
)
from catalog.models.parts import PartQuerySet
from catalog.queries.components import components_to_choose
from catalog.queries.identifications import narrower_than
from catalog.queries.loose_parts import IS_FITTED


class Flag(django_filters.ChoiceFilter):  # type: ignore[misc]
    """A choice that is made or not: only parts without a tag, and the like."""

    def __init__(self, words: str, condition: Q) -> None:
        super().__init__(
            choices=[("1", words)],
            label=words.capitalize(),
            method=self.hold,
            empty_label="with or without" if words.startswith("without") else "not those",
        )
        self.condition = condition

    def hold(self, rows: PartQuerySet, _name: str, _value: str) -> PartQuerySet:
        return rows.filter(self.condition)


def long_choice(rows: QuerySet[Any], label: str, **options: Any) -> django_filters.Filter:
    """Return the choice of one of many records, found by typing."""
    options = {"widget": SearchSelect, "empty_label": "any", **options}
    return django_filters.ModelChoiceFilter(queryset=rows, label=label, **options)


class PartFilter(django_filters.FilterSet):  # type: ignore[misc]
    words = django_filters.CharFilter(method="hold", label="Words, number or tag", max_length=200)
    component = long_choice(
        Component.objects.kept(),
        "Component, with the narrower ones",
        method="is_a_kind_of",
        widget=ComponentSelect,
    )
    vehicle_class = long_choice(VehicleClass.objects.kept(), "Class")
    usability = django_filters.ChoiceFilter(choices=Part.Usability.choices, empty_label="any")
    standing = django_filters.ChoiceFilter(
        field_name="identification_status",
        choices=Part.Standing.choices,
        label="Identification",
        empty_label="any",
    )
    location = long_choice(
        Location.objects.kept(), "At a location or below", method="is_at_or_below"
    )
    accession = long_choice(Accession.objects.kept(), "Donation")
    hazard = long_choice(Hazard.objects.all(), "Hazard", field_name="hazards")
    keep_with = long_choice(Vehicle.objects.kept(), "Kept for")
    untagged = Flag("without tag", Q(tag__isnull=True) & ~Q(IS_FITTED))
    placeless = Flag("without location", Q(location=None, inside=None) & ~Q(IS_FITTED))
    withdrawn = Flag("withdrawn", Q(withdrawn_at__isnull=False))

    class Meta:
        model = Part
        fields: list[str] = []

    def __init__(self, address: Mapping[str, str], *, is_whole_form: bool = False) -> None:
        """Read the choices that an address makes.

        Only their fields are made, unless the whole form is to be shown: every page of the
        list would pay for the others in vain.
        """
        every = type(self).base_filters  # type: ignore[has-type]
        made = {name: address[name] for name in every if address.get(name)}
        if not is_whole_form:
            self.base_filters = {name: every[name] for name in made}
        super().__init__(made or None, Part.objects.all())
        if is_whole_form:
            self.form.fields["component"].queryset = components_to_choose()

    def filter_queryset(self, queryset: PartQuerySet) -> QuerySet[Part]:
        """Leave withdrawn parts out, unless they are what is asked for."""
        rows = queryset if self.chosen.get("withdrawn") else queryset.kept()
        return super().filter_queryset(rows)  # type: ignore[no-any-return]

    @property
    def chosen(self) -> dict[str, object]:
        """What was chosen, by name; what cannot be read is left out."""
        if not self.is_bound:
            return {}
        self.form.is_valid()
        return {name: value for name, value in self.form.cleaned_data.items() if value}

    @property
    def qs(self) -> PartQuerySet:
        """The parts that are chosen; an address that chooses nothing costs nothing."""
        rows: PartQuerySet = super().qs if self.is_bound else self.queryset.kept()
        return rows

    @property
    def indexed_words(self) -> str:
        """The words to be looked up in the index of words, which holds what is kept."""
        chosen = self.chosen
        return "" if "withdrawn" in chosen else str(chosen.get("words", ""))

    def hold(self, rows: PartQuerySet, _name: str, words: str) -> PartQuerySet:
        if self.indexed_words:
            return rows
        return rows.filter(
            Q(number__icontains=words) | Q(tag__icontains=words) | Q(description__icontains=words)
        )

    def is_a_kind_of(self, rows: PartQuerySet, _name: str, component: Component) -> PartQuerySet:
        return rows.filter(component__in=narrower_than(component.pk))

    def is_at_or_below(self, rows: PartQuerySet, _name: str, location: Location) -> PartQuerySet:
        below = Location.objects.filter(lineage__startswith=location.lineage)
        return rows.filter(location__in=list(below.values_list("pk", flat=True)))
