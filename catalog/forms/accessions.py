"""The forms of an accession and of what was stated to be in it."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils import timezone

from catalog.forms.base import DatedForm, RecordForm
from catalog.forms.choices import ComponentSelect
from catalog.forms.fields import VagueDateField
from catalog.forms.names import NamesInput
from catalog.models import Accession, StatedLine
from catalog.queries.accessions import next_serial
from catalog.queries.components import components_to_choose
from catalog.queries.parties import name_to_choose, names_to_choose
from catalog.reckoning.numbers import (
    AccessionNumber,
    AccessionNumberError,
    parse_accession_number,
)


class AccessionNumberField(forms.CharField):
    """The number of an accession; nothing typed means the next of the year."""

    def clean(self, value: Any) -> AccessionNumber | None:
        text = super().clean(value)
        if not text:
            return None
        try:
            number = parse_accession_number(text)
        except AccessionNumberError as problem:
            raise ValidationError(
                "An accession number is the year and a number, such as 2026.4."
            ) from problem
        if number.item is not None:
            raise ValidationError(f"{number} is the number of a part; leave off its last number.")
        return number


class AccessionForm(DatedForm):
    party = forms.CharField(
        label="From whom",
        max_length=160,
        required=False,
        widget=NamesInput(names_to_choose),
        help_text="A person or organization. A name that is new here is recorded.",
    )
    date_text = VagueDateField(label="Received", required=False)
    number = AccessionNumberField(label="Number", max_length=20, required=False)
    field_order = ["seen", "party", "method", "date_text", "summary", "title_status", "terms"]

    class Meta:
        model = Accession
        fields = ["method", "date_text", "summary", "title_status", "terms", "notes"]
        widgets = {name: forms.Textarea(attrs={"rows": 3}) for name in ("terms", "notes")}

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        party = self.instance.party
        self.fields["party"].initial = name_to_choose(party) if party else ""
        self._prepare_number()

    def values(self) -> dict[str, Any]:
        """Return what was typed; the number is parted into its year and its serial."""
        typed = super().values()
        number = typed.pop("number", None)
        if number is None:
            return typed
        return {**typed, "year": number.year, "serial": number.accession}

    def _prepare_number(self) -> None:
        """Propose the next number of the year, and keep a number that parts carry."""
        field = self.fields["number"]
        if self.instance.pk:
            field.initial = self.instance.number
            if self.instance.parts.exists():
                del self.fields["number"]
            return
        year = timezone.localdate().year
        proposed = f"{year}.{next_serial(year)}"
        field.widget.attrs["placeholder"] = proposed
        field.help_text = f"Left empty it becomes {proposed}, the next of this year."


class StatedLinesForm(forms.Form):
    """What the donor said was there, one thing a line."""

    lines = forms.CharField(
        label="What was stated, one thing a line",
        widget=forms.Textarea(attrs={"rows": 4}),
        max_length=20_000,
        help_text="As the donor put it: seven journal boxes, some with brasses.",
    )


class StatedLineForm(RecordForm):
    class Meta:
        model = StatedLine
        fields = ["text", "quantity", "is_approximate", "component"]
        widgets = {"component": ComponentSelect}

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["component"].queryset = components_to_choose()  # type: ignore[attr-defined]


class SettleForm(forms.Form):
    """How a difference was settled."""

    how = forms.CharField(
        label="How the difference was settled",
        max_length=240,
        help_text="Such as: the donor had counted from memory; one was too broken to bring.",
    )
