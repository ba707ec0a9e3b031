"""The forms of a location and of moving parts there."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalog.forms.base import RecordForm
from catalog.forms.choices import SearchSelect
from catalog.models import Location, Part
from catalog.queries.places import find_location, find_part

LONGEST_LIST = 500
# Where the browser can find codes itself, these fields can be filled by the camera.
SCANNED = {"autocomplete": "off", "autocapitalize": "characters", "data-scan": ""}


class LocationForm(RecordForm):
    class Meta:
        model = Location
        fields = ["name", "kind", "parent", "tag", "notes"]
        widgets = {"parent": SearchSelect, "notes": forms.Textarea(attrs={"rows": 3})}
        help_texts = {"tag": "The code on the label of the shelf or box, if it has one."}

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        parent = self.fields["parent"]
        parent.queryset = Location.objects.kept()  # type: ignore[attr-defined]
        parent.empty_label = "nothing: it is a site of its own"  # type: ignore[attr-defined]


class ToLocationField(forms.CharField):
    """A location scanned or typed: its tag, its path, or a name that only one place has."""

    def clean(self, value: Any) -> Location | None:
        words = super().clean(value)
        if not words:
            return None
        location = find_location(words)
        if location is None:
            raise ValidationError(
                f"No location goes by “{words}”, or more than one does: scan its tag, "
                "or choose it from the list."
            )
        return location


class PartNamedField(forms.CharField):
    """A part by its number or tag, as typed or scanned."""

    def clean(self, value: Any) -> Part | None:
        words = super().clean(value)
        if not words:
            return None
        part = find_part(words)
        if part is None:
            raise ValidationError(f"No part has the number or tag “{words}”.")
        return part


class _ToForm(forms.Form):
    scanned = ToLocationField(
        label="Tag of the location",
        required=False,
        help_text="Scan or type it, or choose the location below.",
        widget=forms.TextInput(attrs=SCANNED),
    )
    location = forms.ModelChoiceField(
        label="Location",
        queryset=Location.objects.none(),
        required=False,
        widget=SearchSelect,
        empty_label="not chosen",
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["location"].queryset = Location.objects.kept()  # type: ignore[attr-defined]

    @property
    def location_meant(self) -> Location | None:
        """The location scanned, which counts before one that was chosen earlier."""
        meant: Location | None = self.cleaned_data["scanned"] or self.cleaned_data["location"]
        return meant


class MovePartForm(_ToForm):
    inside = PartNamedField(
        label="Or inside another part",
        required=False,
        help_text="The number or tag of the part that holds it, such as a crate that has one.",
    )
    note = forms.CharField(label="Note", max_length=240, required=False)


class MoveManyForm(_ToForm):
    pieces = forms.CharField(
        label="Parts, one a line",
        max_length=20_000,
        widget=forms.Textarea(attrs={"rows": 8, **SCANNED}),
        help_text="Scan or type their tags or numbers.",
    )
    note = forms.CharField(label="Note", max_length=240, required=False)

    def clean_pieces(self) -> list[str]:
        lines = [line.strip() for line in self.cleaned_data["pieces"].splitlines() if line.strip()]
        if len(lines) > LONGEST_LIST:
            raise ValidationError(
                f"These are {len(lines)} lines; move at most {LONGEST_LIST} parts at once."
            )
        return lines
