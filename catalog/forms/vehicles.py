"""The forms of a vehicle and of how it differs from its class."""

from typing import Any

from django import forms

from catalog.forms.base import DatedForm
from catalog.forms.choices import SearchSelect, SourceChoiceField
from catalog.forms.fields import VagueDateField
from catalog.models import Deviation, Position, Vehicle, VehicleClass
from catalog.queries.positions import positions_of


class VehicleForm(DatedForm):
    date_text = VagueDateField(label="Built", required=False)

    class Meta:
        model = Vehicle
        fields = [
            "label",
            "vehicle_class",
            "running_number",
            "name",
            "works_number",
            "date_text",
            "status",
            "home_location",
            "story",
            "notes",
            "is_published",
        ]

    def __init__(self, *args: Any, may_publish: bool = True, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["vehicle_class"].queryset = VehicleClass.objects.kept()  # type: ignore[attr-defined]
        self.fields["vehicle_class"].empty_label = "choose one"  # type: ignore[attr-defined]
        self.fields["home_location"].empty_label = "not said"  # type: ignore[attr-defined]
        if not may_publish:
            del self.fields["is_published"]


class DifferenceForm(forms.Form):
    """How one vehicle differs from its class at one position, or otherwise."""

    KINDS = (
        (Deviation.Kind.DROPPED, "it does not have this position"),
        (Deviation.Kind.RESPECIFIED, "other limits hold at this position"),
        (Deviation.Kind.NOTED, "otherwise different"),
    )

    kind = forms.ChoiceField(label="How it differs", choices=KINDS)
    position = forms.ModelChoiceField(
        label="Position",
        queryset=Position.objects.none(),
        required=False,
        widget=SearchSelect,
        empty_label="no position in particular",
    )
    reason = forms.CharField(
        label="In words, and how it is known",
        max_length=240,
        help_text="Such as: sand pipes to the rear wheels on this one only, seen on the engine.",
    )
    since = forms.CharField(
        label="Since when", max_length=120, required=False, help_text="If known: after the rebuild."
    )
    source = SourceChoiceField()
    locator = forms.CharField(label="Page, sheet or minute", max_length=120, required=False)

    def __init__(self, *args: Any, vehicle: Vehicle, **options: Any) -> None:
        super().__init__(*args, **options)
        keys = [position.pk for position in positions_of(vehicle)]
        rows = Position.objects.filter(pk__in=keys).select_related("component")
        self.fields["position"].queryset = rows  # type: ignore[attr-defined]
