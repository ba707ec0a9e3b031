"""The form by which a class takes over a published limit."""

from typing import Any

from django import forms

from catalog.forms.choices import CharacteristicChoiceField
from catalog.forms.fields import MillimeterField
from catalog.models import VehicleClass
from catalog.queries.vehicle_classes import characteristics_of
from catalog.reckoning.published_limits import PublishedLimit, Shape


class AdoptLimitForm(forms.Form):
    """What the limit is applied to; only what its shape needs is asked."""

    characteristic = CharacteristicChoiceField(label="For", empty_label="choose one")
    other = CharacteristicChoiceField(
        label="Against", empty_label="choose the other size of the same piece", required=False
    )
    original_mm = MillimeterField(
        label="Original size", required=False, help_text="As it was when new, such as 2 1/2 in."
    )

    def __init__(
        self, *args: Any, vehicle_class: VehicleClass, limit: PublishedLimit, **options: Any
    ) -> None:
        super().__init__(*args, **options)
        rows = characteristics_of(vehicle_class)
        for name in ("characteristic", "other"):
            self.fields[name].queryset = rows  # type: ignore[attr-defined]
        if limit.shape != Shape.DIFFERENCE:
            del self.fields["other"]
        if limit.shape != Shape.FROM_SIZE:
            del self.fields["original_mm"]

    def values(self) -> dict[str, Any]:
        return dict(self.cleaned_data)
