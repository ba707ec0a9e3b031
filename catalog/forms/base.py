"""What every form of a record shares: the version seen, and values ready for an operation."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django import forms
from django.forms.boundfield import BoundField

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

    def validate_unique(self) -> None:
        """Leave a name that is taken to the operation, which can say by what, and what to do."""

    @property
    def seen_version(self) -> int | None:
        return self.cleaned_data.get("seen")

    def values(self) -> dict[str, Any]:
        """Return what was typed, ready for an operation: dates come with their bounds."""
        typed = {name: value for name, value in self.cleaned_data.items() if name != "seen"}
        words = typed.get("date_text")
        return {**typed, **date_values(words)} if isinstance(words, DateWords) else typed


@dataclass(frozen=True, slots=True)
class Fold:
    """Fields that are seldom needed, folded away under a line that says what they are."""

    title: str
    fields: tuple[BoundField, ...]

    @property
    def is_open(self) -> bool:
        """Tell whether something stands in them, or is wrong with them."""
        return any(field.errors or field.value() for field in self.fields)


class FoldingForm(forms.BaseForm):
    """A form that shows its usual fields and folds the others away, as ``FOLDED`` says."""

    FOLDED: Mapping[str, tuple[str, ...]] = {}

    @property
    def folds(self) -> tuple[Fold, ...]:
        return tuple(
            Fold(title, tuple(self[name] for name in names)) for title, names in self.FOLDED.items()
        )

    @property
    def plain_fields(self) -> tuple[BoundField, ...]:
        folded = {name for names in self.FOLDED.values() for name in names}
        return tuple(field for field in self.visible_fields() if field.name not in folded)


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
