"""What every form of a record shares: the version seen, and values ready for an operation."""

from typing import Any

from django import forms

from catalog.forms.fields import DateWords, VagueDateField
from catalog.operations.record import latest_version


class RecordForm(forms.ModelForm):  # type: ignore[type-arg]
    """A form of one record; saving is left to an operation."""

    seen = forms.IntegerField(required=False, widget=forms.HiddenInput)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        if self.instance.pk:
            self.fields["seen"].initial = latest_version(self.instance)
        else:
            del self.fields["seen"]

    @property
    def seen_version(self) -> int | None:
        return self.cleaned_data.get("seen")

    def values(self) -> dict[str, Any]:
        """Return what was typed, ready for an operation: dates come with their bounds."""
        typed = {name: value for name, value in self.cleaned_data.items() if name != "seen"}
        words = typed.get("date_text")
        return {**typed, **date_values(words)} if isinstance(words, DateWords) else typed


def date_values(words: DateWords) -> dict[str, Any]:
    """Return the four columns in which a record keeps a date."""
    date = words.date
    return {
        "date_text": str(words),
        "date_edtf": date.edtf if date else "",
        "date_earliest": date.earliest if date else None,
        "date_latest": date.latest if date else None,
    }


class DatedForm(RecordForm):
    """A form of a record that has a vague date."""

    date_text = VagueDateField(label="Date", required=False)


class ReasonForm(forms.Form):
    """Why a record is withdrawn."""

    reason = forms.CharField(
        label="Why it is withdrawn",
        max_length=240,
        help_text="Others will read it: entered twice, mistaken for another piece …",
    )
