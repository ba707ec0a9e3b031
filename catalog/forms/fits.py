"""The forms of the fit bench: a reading that settles, two pieces to compare, how a trial went."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalog.forms.fields import LengthField
from catalog.models import Instrument, Part, Trial
from catalog.queries.search import exactly


class ReadingForm(forms.Form):
    """One reading of the characteristic that the sheet asks for."""

    name = forms.CharField(max_length=80, widget=forms.HiddenInput)
    length = LengthField(label="Reading")
    instrument = forms.ModelChoiceField(
        Instrument.objects.all(),
        label="With",
        required=False,
        empty_label="not said: trust the finest division that was typed",
    )

    def values(self) -> dict[str, Any]:
        return dict(self.cleaned_data)


class PartField(forms.CharField):
    """A part by its number or by the code on its tag."""

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        if not text:
            return None
        found = exactly(text)
        if not isinstance(found, Part):
            raise ValidationError(f"No part has the number or tag “{text}”.")
        return found


class BenchForm(forms.Form):
    """Which two pieces lie on the bench."""

    first = PartField(label="Part", help_text="Its number or the code on its tag.")
    second = PartField(label="Against part", help_text="The other piece's number or tag.")


class TrialForm(forms.Form):
    outcome = forms.ChoiceField(
        label="How it went", choices=Trial.Outcome.choices, widget=forms.RadioSelect
    )
    what_bound = forms.CharField(
        label="What bound, or what work it took", max_length=240, required=False
    )

    def values(self) -> dict[str, Any]:
        return dict(self.cleaned_data)
