"""The form of an instrument, which takes what its maker or its calibration sheet says."""

from decimal import Decimal
from fractions import Fraction
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalog.forms.base import RecordForm
from catalog.forms.fields import MillimeterField, as_decimal_mm
from catalog.models import Instrument
from catalog.reckoning.instruments import starting_uncertainty
from catalog.reckoning.length_texts import format_doubt, format_mm
from catalog.reckoning.spreads import resolution_uncertainty

LEAST_TOO_LARGE = 1000
# The record rounds to nine decimals.
NEARLY = 0.9999


class SmallLengthField(MillimeterField):
    """A division, or how far a tool is off: more than nothing, and less than a meter."""

    def clean(self, value: Any) -> Any:
        mm = super().clean(value)
        if mm is not None and mm <= 0:
            raise ValidationError("No instrument is perfect: give more than 0 mm.")
        if mm is not None and mm >= LEAST_TOO_LARGE:
            raise ValidationError(
                f"“{value}” is a meter or more: no tool of a workshop is so coarse."
            )
        return mm


class InstrumentForm(RecordForm):
    """How far it is off is told in one of two ways; its divisions tell it where neither is."""

    resolution_mm = SmallLengthField(
        label="Finest division",
        required=False,
        help_text="Such as 1/64 in or 0.02 mm. Leave it empty if there are no divisions.",
    )
    greatest_error = SmallLengthField(
        label="Never off by more than",
        required=False,
        help_text="As its maker says, such as 0.05 mm; for zero, jaws and feel together.",
    )
    uncertainty_mm = SmallLengthField(
        label="Standard uncertainty, if you know it",
        required=False,
        help_text="From a calibration sheet: half of the U that it states for k = 2.",
    )

    class Meta:
        model = Instrument
        fields = ["name", "resolution_mm", "greatest_error", "uncertainty_mm", "note"]
        help_texts = {
            "name": "As people of the group call it.",
            "note": "How to read it, what to mind, and where the ± comes from.",
        }
        widgets = {"note": forms.Textarea({"rows": 3})}

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        if self.instance.pk:
            # Nine decimals of a ± would say more than anybody knows.
            self.initial["uncertainty_mm"] = format_mm(self.instance.uncertainty_mm)

    def clean(self) -> dict[str, Any]:
        typed: dict[str, Any] = super().clean() or {}
        error = typed.pop("greatest_error", None)
        stated = typed.get("uncertainty_mm")
        if self.errors:
            return typed
        is_kept = self.instance.pk and "uncertainty_mm" not in self.changed_data
        if error is not None and stated is not None and not is_kept:
            self.add_error("uncertainty_mm", "Give one of the two: this, or how far it may be off.")
        elif error is not None or stated is None:
            typed["uncertainty_mm"] = self._from_divisions(typed.get("resolution_mm"), error)
        elif is_kept:
            typed["uncertainty_mm"] = self.instance.uncertainty_mm
        self._refuse_finer_than_the_marks(typed)
        return typed

    def _refuse_finer_than_the_marks(self, typed: dict[str, Any]) -> None:
        """Refuse a ± below that of rounding to the divisions, such as one left from finer ones."""
        division, known = typed.get("resolution_mm"), typed.get("uncertainty_mm")
        if division is None or known is None:
            return
        least = resolution_uncertainty(float(division))
        if float(known) < least * NEARLY:
            self.add_error(
                "uncertainty_mm",
                f"Reading to the nearest division alone makes {format_doubt(least)}: give at least "
                "that, or empty this field to have it reckoned.",
            )

    def _from_divisions(self, division: Decimal | None, error: Decimal | None) -> Decimal | None:
        known = starting_uncertainty(
            resolution_mm=None if division is None else float(division),
            greatest_error_mm=None if error is None else float(error),
        )
        if known is None:
            self.add_error(
                "greatest_error", "Say how far it may be off, or give its finest division."
            )
            return None
        return as_decimal_mm(Fraction(known))
