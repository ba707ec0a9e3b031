"""The steps of reading a list in: which file, and what its columns mean."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile

from catalog.exchange.part_columns import FIELDS, SHARED, Column
from catalog.exchange.tables import Table, TableError, read_table
from catalog.models import Accession, ImportBatch


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

    def clean_file(self) -> UploadedFile:
        file: UploadedFile = self.cleaned_data["file"]
        self.data_read = file.read()
        try:
            self.table: Table = read_table(file.name or "the list", self.data_read)
        except TableError as problem:
            raise ValidationError(str(problem)) from problem
        return file


class ImportColumnsForm(forms.Form):
    """One choice for each column, and the unit of lengths that are written without one."""

    def __init__(self, *args: Any, columns: tuple[Column, ...], unit: str, **options: Any) -> None:
        super().__init__(*args, **options)
        self.columns = columns
        for column in columns:
            self.fields[_name(column)] = forms.ChoiceField(
                label=column.heading, choices=list(FIELDS.items()), initial=column.field
            )
        self.fields["unit"] = forms.ChoiceField(
            label="A length without a unit is in",
            choices=ImportBatch.Unit.choices,
            initial=unit,
            required=False,
        )

    def columns_with_fields(self) -> list[tuple[Column, Any]]:
        return [(column, self[_name(column)]) for column in self.columns]

    def clean(self) -> dict[str, Any]:
        seen: dict[str, str] = {}
        for column in self.columns:
            meaning = self.cleaned_data.get(_name(column), "")
            if meaning in seen and meaning not in SHARED:
                words = f"“{seen[meaning]}” is read as this already; choose one of the two."
                self.add_error(_name(column), words)
            seen.setdefault(meaning, column.heading)
        return self.cleaned_data

    @property
    def meanings(self) -> list[str]:
        return [self.cleaned_data[_name(column)] for column in self.columns]


def _name(column: Column) -> str:
    return f"column_{column.index}"
