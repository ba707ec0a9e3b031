"""The steps of reading a list in: which file, and what its columns mean."""

from collections.abc import Collection, Mapping, Sequence
from typing import Any, Protocol

from django import forms

from catalog.models import Accession, ImportBatch


class AskedColumn(Protocol):
    """A column of a list, with what it most likely means."""

    @property
    def index(self) -> int: ...

    @property
    def heading(self) -> str: ...

    @property
    def field(self) -> str: ...


class ImportFileForm(forms.Form):
    """A spreadsheet and the donation that its parts came with."""

    file = forms.FileField(
        label="The list",
        help_text="A spreadsheet saved as XLSX or CSV, with a header or without.",
        widget=forms.ClearableFileInput(attrs={"accept": ".csv,.tsv,.txt,.xlsx,.xlsm"}),
    )
    accession = forms.ModelChoiceField(
        label="The donation they came with",
        queryset=Accession.objects.open().select_related("party"),
        required=False,
        empty_label="none, or the numbers in the list say it",
        help_text="Parts without a number in the list get the next numbers of this donation.",
    )


class ImportColumnsForm(forms.Form):
    """One choice for each column, and the unit of lengths that are written without one.

    ``meanings`` are what a column can mean, in words by name; those in ``shared`` may be the
    meaning of several columns.
    """

    def __init__(
        self,
        data: Any,
        *,
        columns: Sequence[AskedColumn],
        meanings: Mapping[str, str],
        shared: Collection[str],
        unit: str,
    ) -> None:
        super().__init__(data)
        self.columns = columns
        self.shared = shared
        for column in columns:
            self.fields[_name(column)] = forms.ChoiceField(
                label=column.heading, choices=list(meanings.items()), initial=column.field
            )
        self.fields["unit"] = forms.ChoiceField(
            label="A length without a unit is in",
            choices=ImportBatch.Unit.choices,
            initial=unit,
            required=False,
        )

    def columns_with_fields(self) -> list[tuple[AskedColumn, Any]]:
        return [(column, self[_name(column)]) for column in self.columns]

    def clean(self) -> dict[str, Any]:
        seen: dict[str, str] = {}
        for column in self.columns:
            meaning = self.cleaned_data.get(_name(column), "")
            if meaning in seen and meaning not in self.shared:
                words = f"“{seen[meaning]}” is read as this already; choose one of the two."
                self.add_error(_name(column), words)
            seen.setdefault(meaning, column.heading)
        return self.cleaned_data

    @property
    def chosen(self) -> list[str]:
        return [self.cleaned_data[_name(column)] for column in self.columns]


def _name(column: AskedColumn) -> str:
    return f"column_{column.index}"
