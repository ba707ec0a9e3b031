"""Choosing among vehicles."""

import django_filters

from catalog.filters.dates import DateFilter, DateOrderFilter
from catalog.models import Vehicle, VehicleClass


class VehicleFilter(django_filters.FilterSet):  # type: ignore[misc]
    vehicle_class = django_filters.ModelChoiceFilter(
        queryset=VehicleClass.objects.kept(),
        to_field_name="slug",
        label="Class",
        empty_label="every class",
    )
    status = django_filters.ChoiceFilter(choices=Vehicle.Status.choices, empty_label="any status")

    date = DateFilter(label="Built")
    order = DateOrderFilter("restoration order")

    class Meta:
        model = Vehicle
        fields = ["vehicle_class", "status", "date", "order"]
