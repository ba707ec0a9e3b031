"""The forms of a source, of a file kept with it, and of citing it."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalog.forms.base import DatedForm
from catalog.forms.choices import SearchSelect
from catalog.forms.names import NamesInput
from catalog.models import Party, Source
from catalog.queries.parties import name_to_choose, names_to_choose

NAMES = ("holder", "speaker")


class SourceForm(DatedForm):
    holder = forms.CharField(
        label="Who has the original",
        max_length=160,
        required=False,
        widget=NamesInput(names_to_choose),
        help_text="A name that is new here is recorded as a party.",
    )
    speaker = forms.CharField(
        label="Who spoke",
        max_length=160,
        required=False,
        widget=NamesInput(names_to_choose),
        help_text="For an oral account.",
    )
    field_order = [
        *("seen", "title", "kind", "date_text", "creator", "reference_number", "holder"),
        *("original_place", "rights", "speaker", "recorder", "has_consent", "notes"),
    ]

    class Meta:
        model = Source
        fields = [
            *("title", "kind", "date_text", "creator", "reference_number", "original_place"),
            *("rights", "recorder", "has_consent", "notes", "is_published"),
        ]
        widgets = {"notes": forms.Textarea(attrs={"rows": 3})}

    def __init__(self, *args: Any, may_publish: bool, **options: Any) -> None:
        super().__init__(*args, **options)
        for name in NAMES:
            party: Party | None = getattr(self.instance, name)
            self.fields[name].initial = name_to_choose(party) if party else ""
        if not may_publish:
            del self.fields["is_published"]


class SourceFileForm(forms.Form):
    file = forms.FileField(
        label="A scan or document",
        allow_empty_file=True,
        help_text="Kept as it is, for members only. Pictures are better added as photos.",
    )


class CitationForm(forms.Form):
    """The source behind a statement: one that is recorded, or a new one by its title."""

    source = forms.ModelChoiceField(
        label="Source",
        queryset=Source.objects.kept(),
        required=False,
        widget=SearchSelect,
        empty_label="a new one",
    )
    title = forms.CharField(label="Title of a new source", max_length=240, required=False)
    kind = forms.ChoiceField(
        label="Kind of the new source", choices=Source.Kind.choices, initial=Source.Kind.OTHER
    )
    locator = forms.CharField(label="Page, sheet or minute", max_length=120, required=False)
    says = forms.CharField(
        label="What it says", required=False, widget=forms.Textarea(attrs={"rows": 3})
    )

    def clean(self) -> dict[str, Any]:
        typed = super().clean() or self.cleaned_data
        if bool(typed.get("source")) == bool(typed.get("title")):
            raise ValidationError(
                "Choose a source from the list, or write the title of a new one: one of the two."
            )
        return typed
