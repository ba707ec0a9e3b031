"""The fields beside a photo on the bench, and the ways to leave the queue."""

from typing import Any

from django import forms

from catalog.forms.choices import ComponentChoiceField, ComponentSelect, SearchSelect
from catalog.forms.places import PartNamedField
from catalog.models import Location, Part
from catalog.operations.bench import Step, Worked
from catalog.operations.record import latest_version


class BenchForm(forms.Form):
    """What a curator fills in; the keys named here are those that ``keys.js`` listens to."""

    tag = forms.CharField(
        max_length=120,
        required=False,
        widget=forms.TextInput(
            {"data-key": "t", "autocapitalize": "characters", "autocomplete": "off"}
        ),
    )
    component = ComponentChoiceField(
        label="What it is", required=False, widget=ComponentSelect({"data-key": "w"})
    )
    location = forms.ModelChoiceField(
        Location.objects.kept().order_by("path"),
        required=False,
        empty_label="not said",
        widget=SearchSelect({"data-key": "l"}),
    )
    quantity = forms.IntegerField(
        label="How many", min_value=1, widget=forms.NumberInput({"data-key": "n"})
    )
    usability = forms.ChoiceField(
        choices=Part.Usability.choices, widget=forms.Select({"data-key": "u"})
    )
    description = forms.CharField(
        label="In words",
        max_length=240,
        required=False,
        widget=forms.TextInput({"data-key": "d"}),
    )
    seen = forms.IntegerField(required=False, widget=forms.HiddenInput)

    def __init__(self, data: Any, part: Part) -> None:
        names = ("tag", "component", "location", "quantity", "usability", "description")
        initial = {name: getattr(part, name) for name in names}
        super().__init__(data, initial={**initial, "seen": latest_version(part)})

    def values(self) -> Worked:
        told = self.cleaned_data
        return {name: told[name] for name in Worked.__annotations__}  # type: ignore[return-value]


class SamePieceForm(forms.Form):
    """Which other part this one is."""

    other = PartNamedField(
        label="The same piece as",
        max_length=60,
        help_text="Number or tag of the part that is kept.",
    )


class StepForm(forms.Form):
    """A step that is to be taken back, as the button behind it sends it."""

    before = forms.IntegerField()
    after = forms.IntegerField()
    move = forms.IntegerField(required=False)
    said = forms.IntegerField(required=False)
    former = forms.IntegerField(required=False)

    def step(self) -> Step:
        return Step(**self.cleaned_data)
