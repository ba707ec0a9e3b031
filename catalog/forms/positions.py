"""The forms of positions and of the limits that hold there."""

from typing import Any

from django import forms
from django.core.exceptions import NON_FIELD_ERRORS, ValidationError

from catalog.forms.base import RecordForm
from catalog.forms.choices import (
    CharacteristicChoiceField,
    ComponentChoiceField,
    SearchSelect,
    SourceChoiceField,
)
from catalog.forms.fields import MillimeterField
from catalog.forms.position_lines import PositionLinesField
from catalog.models import Position, Specification, VehicleClass
from catalog.queries.vehicle_classes import characteristics_of, positions_with_limits
from catalog.reckoning.length_texts import rounded
from catalog.reckoning.lengths import LengthError
from catalog.reckoning.tolerances import parse_limits


class LimitsField(forms.CharField):
    """A size with its limits as a drawing writes them, read into both limits in millimeters."""

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        if not text:
            return None
        try:
            limits = parse_limits(text)
        except LengthError as problem:
            raise ValidationError(str(problem)) from problem
        return rounded(limits.lower_mm, 9), rounded(limits.upper_mm, 9)


class PositionForm(RecordForm):
    component = ComponentChoiceField(empty_label="choose one")

    class Meta:
        model = Position
        fields = ["code", "component", "assembly", "is_essential", "sequence", "note"]
        labels = {"sequence": "Place in the order"}
        help_texts = {"code": "Axle numbers from the brake end, L and R facing it: L1, R2, A1."}

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["sequence"].required = False
        if not self.instance.pk:
            self.initial["sequence"] = None


class OwnPositionForm(PositionForm):
    """A position that one vehicle has besides those of its class, and why."""

    reason = forms.CharField(
        label="In words, and how it is known",
        max_length=240,
        help_text="Such as: a second sand pipe on this one only, seen on the engine.",
    )
    since = forms.CharField(
        label="Since when", max_length=120, required=False, help_text="If known: after the rebuild."
    )


class PositionLinesForm(forms.Form):
    lines = PositionLinesField()


class LimitsPositionField(forms.ModelChoiceField):  # type: ignore[type-arg]
    """A position of a class, or one that a single vehicle of the class has besides."""

    widget = SearchSelect

    def label_from_instance(self, position: Any) -> str:
        own = position.vehicle
        return f"{position}, on {own} only" if own else str(position)


class SpecificationForm(RecordForm):
    characteristic = CharacteristicChoiceField(label="What is measured", empty_label="choose one")
    as_drawn = LimitsField(
        label="Size and limits as the drawing writes them",
        required=False,
        max_length=80,
        help_text="2 1/2 in +0 -1/16, 63.5 mm ± 0.2, or fill in the two limits below.",
    )
    lower_mm = MillimeterField(label="Lower limit as new", required=False)
    upper_mm = MillimeterField(label="Upper limit as new", required=False)
    worn_lower_mm = MillimeterField(label="Lower limit when worn", required=False)
    worn_upper_mm = MillimeterField(label="Upper limit when worn", required=False)
    source = SourceChoiceField()
    locator = forms.CharField(label="Page, sheet or minute", max_length=120, required=False)

    class Meta:
        model = Specification
        fields = [
            "characteristic",
            "as_drawn",
            "lower_mm",
            "upper_mm",
            "worn_lower_mm",
            "worn_upper_mm",
            "position",
            "vehicle",
            "is_required",
            "note",
        ]
        labels = {
            "position": "At position",
            "vehicle": "On vehicle",
            "is_required": "Required, not advisory only",
        }
        field_classes = {"position": LimitsPositionField}

    def __init__(self, *args: Any, vehicle_class: VehicleClass, **options: Any) -> None:
        super().__init__(*args, **options)
        choices: dict[str, Any] = self.fields
        choices["characteristic"].queryset = characteristics_of(vehicle_class)
        choices["position"].queryset = positions_with_limits(vehicle_class)
        choices["position"].empty_label = "every position of the component"
        choices["vehicle"].queryset = vehicle_class.vehicles.kept()
        choices["vehicle"].empty_label = "every vehicle of the class"
        if self.instance.pk:
            cited = self.instance.citations.select_related("source")
            self.fields["source"].say_behind(cited)  # type: ignore[attr-defined]

    def full_clean(self) -> None:
        super().full_clean()
        if "as_drawn" in self.errors:
            # Without the limits meant there, nobody can say whether any are given.
            self.errors.pop(NON_FIELD_ERRORS, None)

    def clean(self) -> dict[str, Any]:
        typed = super().clean() or self.cleaned_data
        limits = typed.pop("as_drawn", None)
        if limits and self._says_otherwise(limits):
            raise ValidationError(
                {"as_drawn": "The limits below say otherwise: clear one of them."}
            )
        if limits:
            typed["lower_mm"], typed["upper_mm"] = limits
        return typed

    def _says_otherwise(self, limits: tuple[Any, Any]) -> bool:
        """Say whether a limit typed by hand differs from those read from the drawing's words."""
        typed = zip(("lower_mm", "upper_mm"), limits, strict=True)
        return any(
            name in self.changed_data and self.cleaned_data.get(name) not in (None, limit)
            for name, limit in typed
        )
