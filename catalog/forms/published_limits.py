"""The form by which a class takes over a published limit."""

from typing import Any

from django import forms

from catalog.forms.choices import CharacteristicChoiceField
from catalog.forms.fields import MillimeterField
from catalog.models import VehicleClass
from catalog.queries.vehicle_classes import characteristics_of
from catalog.reckoning.published_limits import PublishedLimit, Shape

WEAR = (
    "Your group's own too. Left empty, a worn piece is held against the size as new and does not "
    "fit once it is worn."
)


class AdoptLimitForm(forms.Form):
    """What the limit is applied to; only what its shape needs is asked."""

    characteristic = CharacteristicChoiceField(label="For", empty_label="choose one")
    other = CharacteristicChoiceField(
        label="Against", empty_label="choose the other size of the same piece"
    )
    original_mm = MillimeterField(
        label="Original size", help_text="As it was when new, such as 2 1/2 in."
    )
    tolerance_mm = MillimeterField(
        label="A new one may differ either way by",
        help_text="The rule gives no tolerance, so this is your group's own. 1/64 in is usual for "
        "a turned journal (common practice, no source). With none, a piece of just this size "
        "could never be shown to fit.",
    )
    wear_mm = MillimeterField(label="", required=False)

    def __init__(
        self, *args: Any, vehicle_class: VehicleClass, limit: PublishedLimit, **options: Any
    ) -> None:
        super().__init__(*args, **options)
        rows = characteristics_of(vehicle_class)
        for name in ("characteristic", "other"):
            self.fields[name].queryset = rows  # type: ignore[attr-defined]
        asked = {
            "other": "holds two sizes of one piece against each other: choose the other one.",
            "original_mm": "is measured from the original size: give that first.",
            "tolerance_mm": "gives a size and no tolerance: say how far a new piece may differ.",
        }
        for name, words in asked.items():
            self.fields[name].error_messages["required"] = f"{limit.section} {words}"
        if limit.shape != Shape.DIFFERENCE:
            del self.fields["other"]
        if limit.shape != Shape.FROM_SIZE:
            del self.fields["original_mm"]
        if not limit.has_no_tolerance:
            del self.fields["tolerance_mm"]
        if limit.shape != Shape.NOMINAL:
            del self.fields["wear_mm"]
        else:
            self.fields["wear_mm"].label = f"A worn one may be {limit.wears} by"
            self.fields["wear_mm"].help_text = WEAR

    def values(self) -> dict[str, Any]:
        return dict(self.cleaned_data)
