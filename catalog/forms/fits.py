"""The forms of the fit bench: a reading that settles, two pieces to compare, how a trial went."""

from typing import Any
from urllib.parse import urlencode

from django import forms
from django.core.exceptions import ValidationError

from catalog.forms.choices import ComponentChoiceField, InstrumentChoiceField
from catalog.forms.fields import ReadingField
from catalog.forms.photos import PhotosField
from catalog.models import Part, Trial, Vehicle
from catalog.queries.fit_places import positions_to_try
from catalog.queries.search import Result, exactly, search

# Of many parts that answer to the same words so many are offered.
OFFERED = 12


class ReadingForm(forms.Form):
    """One reading of the characteristic that the sheet asks for."""

    name = forms.CharField(max_length=80, widget=forms.HiddenInput)
    length = ReadingField()
    instrument = InstrumentChoiceField()

    def values(self) -> dict[str, Any]:
        return dict(self.cleaned_data)


class CompareForm(forms.Form):
    """What to hold a part against."""

    component = ComponentChoiceField(
        label="Beside pictures of", required=False, empty_label="choose one"
    )


class PartField(forms.CharField):
    """A part by its number, by the code on its tag, or by words that only it answers to."""

    default_error_messages = {
        "none": "No part has the number or tag “%(text)s”, and none is described so.",
        "several": "Several parts answer to “%(text)s”. Choose one below, or type its number.",
    }

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        if not text:
            return None
        found = exactly(text)
        if isinstance(found, Part):
            return found
        hits = [one for one in search(text, limit=OFFERED) if one.kind == "part"]
        if len(hits) == 1:
            return Part.objects.get(pk=hits[0].object_id)
        code = "several" if hits else "none"
        params = {"text": text, "hits": hits}
        raise ValidationError(self.error_messages[code], code=code, params=params)


class BenchForm(forms.Form):
    """What lies on the bench: a part, and against it another part or a position of a vehicle.

    The positions are offered once the part and the vehicle are known.
    """

    first = PartField(label="Part", help_text="Its number, the code on its tag, or words.")
    second = PartField(label="Against part", required=False, help_text="Or leave it empty.")
    vehicle = forms.ModelChoiceField(
        Vehicle.objects.kept().in_restoration_order(),
        label="Or against a position of",
        required=False,
        empty_label="no vehicle",
    )
    position = forms.TypedChoiceField(
        label="Position", required=False, coerce=int, empty_value=None
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        choices = self._positions()
        if choices:
            self.fields["position"].choices = [("", "choose one"), *choices]  # type: ignore[attr-defined]
        else:
            del self.fields["position"]

    @property
    def offers(self) -> list[tuple[str, list[tuple[str, Part, str]]]]:
        """Return for each field whose words several parts answer to, where each of these leads."""
        return [
            (str(self.fields[name].label), self._offered(name, problem.params["hits"]))
            for name, problems in self.errors.as_data().items()
            for problem in problems
            if problem.code == "several" and problem.params
        ]

    def _offered(self, name: str, hits: list[Result]) -> list[tuple[str, Part, str]]:
        parts = Part.objects.in_bulk([hit.object_id for hit in hits])
        typed = {key: self[key].value() or "" for key in self.fields}
        return [
            (f"?{urlencode({**typed, name: str(parts[hit.object_id])})}", part, hit.detail)
            for hit in hits
            if (part := parts.get(hit.object_id))
        ]

    def clean(self) -> dict[str, Any]:
        told = super().clean() or {}
        if self.errors or told.get("second") or told.get("position"):
            return told
        if told.get("vehicle") is None:
            raise ValidationError("Say against what: another part, or a vehicle.")
        if "position" not in self.fields:
            raise ValidationError(f"{told['vehicle']} has no position that takes such a part.")
        self.add_error("position", "Choose at which position of the vehicle.")
        return told

    def values(self) -> dict[str, int]:
        """Return which records the bench is laid with, by their keys."""
        told = self.cleaned_data
        if told["second"]:
            return {"part": told["first"].pk, "other": told["second"].pk}
        where = {"vehicle": told["vehicle"].pk, "position": told["position"]}
        return {"part": told["first"].pk, **where}

    def _positions(self) -> list[tuple[int, str]]:
        if not self.is_bound:
            return []
        try:
            part = self.fields["first"].clean(self["first"].value())
            vehicle = self.fields["vehicle"].clean(self["vehicle"].value())
        except ValidationError:
            return []
        return positions_to_try(part, vehicle) if vehicle else []


class TrialForm(forms.Form):
    outcome = forms.ChoiceField(
        label="How it went", choices=Trial.Outcome.choices, widget=forms.RadioSelect
    )
    what_bound = forms.CharField(
        label="What bound, or what work it took",
        max_length=240,
        required=False,
        help_text="Empty only where it went: where it did not go, say what bound.",
    )
    photos = PhotosField(label="Photos of it", required=False)

    def values(self) -> dict[str, Any]:
        """Return how it went; the photographs are kept apart, so that a bad one spoils nothing."""
        return {name: self.cleaned_data[name] for name in ("outcome", "what_bound")}
