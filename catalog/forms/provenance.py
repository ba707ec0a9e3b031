"""The form of one event: what happened, when, from whom to whom, and how it is known."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalog.forms.base import DatedForm, FoldingForm
from catalog.forms.choices import SearchSelect
from catalog.forms.fields import VagueDateField
from catalog.forms.names import NamesInput
from catalog.models import ProvenanceEvent, Source
from catalog.operations.citing import Cited
from catalog.queries.parties import name_to_choose, names_to_choose

NAMES = ("from_party", "to_party", "keeper")
OF_CITATION = ("source", "new_source", "locator")
Certainty = ProvenanceEvent.Certainty
HOW_SURE = [
    (Certainty.DOCUMENTED, "documented: a paper says so"),
    (Certainty.PROBABLE, "probable: something speaks for it"),
    (Certainty.SUPPOSED, "supposed: we only think so"),
]
NOT_SAID = ("", "documented if a source is given below, else supposed")


class PartyNameField(forms.CharField):
    """The name of a party, found or recorded when the form is saved."""

    def __init__(self, **options: Any) -> None:
        names = NamesInput(names_to_choose)
        super().__init__(required=False, max_length=320, widget=names, **options)


class EventForm(FoldingForm, DatedForm):
    FOLDED = {
        "A source that is not on record yet": ("new_source",),
        "Who kept it, its order, which account is preferred": (
            *("keeper", "sequence", "is_preferred", "preference_reason"),
        ),
    }

    date_text = VagueDateField(label="When", required=False)
    from_party = PartyNameField(label="From", help_text="Type a name; a new one is recorded.")
    to_party = PartyNameField(label="To")
    keeper = PartyNameField(label="Kept by", help_text="Who had it, where that is not the owner.")
    source = forms.ModelChoiceField(
        label="Source behind it",
        queryset=Source.objects.kept(),
        required=False,
        widget=SearchSelect,
        empty_label="none given",
    )
    new_source = forms.CharField(
        label="Its title",
        max_length=240,
        required=False,
        help_text="Letter of the manager, 1929. It is recorded with the event.",
    )
    certainty = forms.ChoiceField(label="How sure is it?", choices=HOW_SURE)
    locator = forms.CharField(label="Page, sheet or minute", max_length=120, required=False)

    class Meta:
        model = ProvenanceEvent
        fields = [
            "kind",
            "date_text",
            "place",
            "words",
            "certainty",
            "sequence",
            "is_preferred",
            "preference_reason",
        ]
        labels = {
            "kind": "What happened",
            "words": "More in words",
            "preference_reason": "Why it is preferred",
        }
        help_texts = {
            "sequence": "Only where dates alone do not tell the order: 1, 2, 3 …",
            "is_preferred": "Say why below.",
        }

    field_order = ("kind", "date_text", *NAMES, "place", "words", "certainty", *OF_CITATION)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        kinds = [("", "choose one"), *ProvenanceEvent.Kind.choices]
        self.fields["kind"].choices = kinds  # type: ignore[attr-defined]
        for name in NAMES:
            party = getattr(self.instance, name)
            self.initial[name] = name_to_choose(party) if party else ""
        if not self.instance.pk:
            self.initial["certainty"] = ""
            self.fields["certainty"].required = False
            self.fields["certainty"].choices = [NOT_SAID, *HOW_SURE]  # type: ignore[attr-defined]
        self.fields["words"].widget.attrs["rows"] = 3

    def clean_new_source(self) -> str:
        title: str = self.cleaned_data["new_source"]
        if title and self.cleaned_data.get("source"):
            raise ValidationError("Choose a source above or name a new one here: one of the two.")
        return title

    def values(self) -> dict[str, Any]:
        return {name: value for name, value in super().values().items() if name not in OF_CITATION}

    @property
    def cited(self) -> Cited:
        return {
            "source": self.cleaned_data["source"],
            "title": self.cleaned_data.get("new_source", ""),
            "locator": self.cleaned_data.get("locator", ""),
        }
