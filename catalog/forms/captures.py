"""The form by which a piece is taken in: a photo or a line of words, and all else if known."""

from decimal import Decimal
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalog.forms.choices import ComponentChoiceField, InstrumentChoiceField, SearchSelect
from catalog.forms.fields import ReadingField
from catalog.forms.held_photos import HeldPhoto, HeldPhotosField
from catalog.forms.photos import PhotosField
from catalog.models import Accession, Hazard, Location, Part, VehicleClass
from catalog.operations.captures import Capture, hold_photos
from catalog.operations.picture_files import KeptPicture
from catalog.queries.reference import accession_label

PIECES = "Count whole pieces: half a piece is one piece of which half survives."
AT_LEAST_ONE = "A part is at least one piece."
SHARES = [
    (Decimal("1"), "all of it"),
    (Decimal("0.75"), "three quarters"),
    (Decimal("0.5"), "half of it"),
    (Decimal("0.25"), "a quarter"),
]


class AccessionChoiceField(forms.ModelChoiceField):  # type: ignore[type-arg]
    def label_from_instance(self, obj: Any) -> str:
        return accession_label(obj)


class TakeInForm(forms.Form):
    """Fields named as ``take_in`` names what it takes, so that refusals stand beside them."""

    photos = PhotosField(label="Photos", required=False)
    held = HeldPhotosField(required=False)
    description = forms.CharField(
        label="In words",
        max_length=240,
        required=False,
        help_text="Such as: bent strap, two holes.",
    )
    tag = forms.CharField(
        max_length=120,
        required=False,
        help_text="The code on the label, such as K7Q-2M9V.",
        widget=forms.TextInput({"autocapitalize": "characters", "autocomplete": "off"}),
    )
    quantity = forms.IntegerField(
        label="How many",
        min_value=1,
        required=False,
        error_messages={"invalid": PIECES, "min_value": AT_LEAST_ONE},
    )
    component = ComponentChoiceField(label="What it may be", required=False)
    vehicle_class = forms.ModelChoiceField(
        VehicleClass.objects.kept(), label="Of which class", required=False, empty_label="not known"
    )
    mark = forms.CharField(
        label="A mark",
        max_length=120,
        required=False,
        help_text="As you read it, with ? for each character that you cannot read.",
        widget=forms.TextInput({"autocapitalize": "characters", "autocomplete": "off"}),
    )
    measured_at = forms.CharField(
        label="What you measured",
        max_length=80,
        required=False,
        widget=forms.TextInput({"list": "measured-names", "autocomplete": "off"}),
    )
    measurement = ReadingField(required=False)
    instrument = InstrumentChoiceField(empty_label="not said")
    usability = forms.ChoiceField(choices=Part.Usability.choices, required=False)
    surviving_share = forms.TypedChoiceField(
        label="How much of it survives",
        choices=SHARES,
        coerce=Decimal,
        required=False,
    )
    hazards = forms.ModelMultipleChoiceField(
        Hazard.objects.all(), required=False, widget=forms.CheckboxSelectMultiple
    )
    accession = AccessionChoiceField(
        Accession.objects.open().select_related("party"),
        label="Donation",
        required=False,
        empty_label="none, or not known",
    )
    location = forms.ModelChoiceField(
        Location.objects.kept().order_by("path"),
        required=False,
        empty_label="not said",
        widget=SearchSelect,
    )

    pictures: list[KeptPicture] = []

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        fresh = {
            "quantity": 1,
            "usability": Part.Usability.UNASSESSED,
            "surviving_share": SHARES[0][0],
        }
        self.initial = {**fresh, **self.initial}

    def clean(self) -> dict[str, Any]:
        """Hold the photos whatever else is wrong, so that nobody has to take them again."""
        typed = self.cleaned_data
        self.pictures, refused = hold_photos([*typed.get("held", ()), *typed.get("photos", ())])
        if refused:
            self.add_error("photos", [ValidationError(words) for words in refused])
        if (
            typed.get("measured_at")
            and not typed.get("measurement")
            and "measurement" not in self.errors
        ):
            self.add_error("measurement", "Write what you read there, or leave both empty.")
        return typed

    def values(self) -> Capture:
        """Return what was typed as ``take_in`` takes it."""
        typed = self.cleaned_data
        told: dict[str, Any] = {
            name: typed[name]
            for name in Capture.__annotations__
            if name in typed and name not in {"photos", "measurement"}
        }
        told["photos"] = self.pictures
        told["quantity"] = typed["quantity"] or 1
        told["surviving_share"] = typed["surviving_share"] or Decimal(1)
        told["usability"] = typed["usability"] or Part.Usability.UNASSESSED
        if typed["measurement"]:
            told["measurement"] = {
                "length": typed["measurement"],
                "name": typed["measured_at"],
                "instrument": typed["instrument"],
            }
        return told  # type: ignore[return-value]

    def kept(self) -> list[str]:
        """Say which donation and location stand in the form, to be seen before saving."""
        rows = []
        for name in ("accession", "location"):
            key = str(self[name].value() or "")
            chosen = self.fields[name].queryset.filter(pk=key).first() if key.isdecimal() else None  # type: ignore[attr-defined]
            rows += [str(chosen)] if chosen else []
        return rows

    def held_photos(self) -> list[HeldPhoto]:
        return [HeldPhoto.of(picture) for picture in self.pictures]
