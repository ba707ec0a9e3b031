"""The forms of a patent, its figures, reference characters and likenesses, and worn marks."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalog.forms.base import RecordForm
from catalog.forms.choices import ComponentChoiceField
from catalog.forms.days import DayInput
from catalog.forms.names import NamesInput
from catalog.forms.photos import ACCEPTED
from catalog.models import Likeness, Part, Patent, PatentFigure
from catalog.queries.parties import name_to_choose, names_to_choose
from catalog.queries.patents import part_named


class PatentForm(RecordForm):
    """Inventors are typed one a line, since many of them are in no record yet."""

    inventors = forms.CharField(
        label="Inventors",
        required=False,
        widget=forms.Textarea(attrs={"rows": 2}),
        help_text="One name a line; a new name is recorded.",
    )
    assignee = forms.CharField(
        label="Assigned to", required=False, widget=NamesInput(names_to_choose)
    )

    class Meta:
        model = Patent
        fields = [
            "country",
            "number",
            "year",
            "kind",
            "title",
            "filed_on",
            "issued_on",
            "notes",
            "is_published",
        ]
        widgets = {"filed_on": DayInput, "issued_on": DayInput}
        labels = {"year": "Year of application", "filed_on": "Filed", "issued_on": "Issued"}
        help_texts = {"year": "Only British numbers before 1916 need it."}

    field_order = ("country", "number", "title", "inventors", "assignee", "issued_on", "filed_on")

    def __init__(self, *args: Any, may_publish: bool = True, **options: Any) -> None:
        super().__init__(*args, **options)
        if self.instance.pk:
            inventors = [name_to_choose(party) for party in self.instance.inventors.all()]
            self.initial["inventors"] = "\n".join(inventors)
            assignee = self.instance.assignee
            self.initial["assignee"] = name_to_choose(assignee) if assignee else ""
        if not may_publish:
            del self.fields["is_published"]

    def values(self) -> dict[str, Any]:
        typed = super().values()
        return {**typed, "inventors": typed["inventors"].splitlines()}


class FigureForm(forms.Form):
    label = forms.CharField(label="Label", max_length=20, help_text="Such as Fig. 1.")
    title = forms.CharField(label="What it shows", max_length=160, required=False)
    file = forms.FileField(label="Picture", widget=forms.FileInput(attrs={"accept": ACCEPTED}))


class CharacterForm(forms.Form):
    """A reference character at a spot in percent, so that it can be typed as well as tapped."""

    character = forms.CharField(label="Character", max_length=8)
    words = forms.CharField(label="What the patent calls it", max_length=160, required=False)
    component = ComponentChoiceField(required=False)
    across = forms.FloatField(label="From the left, in %", min_value=0, max_value=100)
    down = forms.FloatField(label="From the top, in %", min_value=0, max_value=100)

    def values(self) -> dict[str, Any]:
        """Return what was typed, the spot in fractions of the figure."""
        typed = dict(self.cleaned_data)
        spot = (typed.pop("across") / 100, typed.pop("down") / 100)
        return {**typed, "at": spot}


class LikenessForm(forms.Form):
    """How a part, by number or tag, or a component resembles a figure."""

    part = forms.CharField(
        label="Part", max_length=40, required=False, help_text="Its number or tag."
    )
    component = ComponentChoiceField(required=False, empty_label="no component")
    degree = forms.ChoiceField(label="How alike", choices=Likeness.Degree.choices)
    differences = forms.CharField(
        label="What differs", required=False, widget=forms.Textarea(attrs={"rows": 2})
    )

    def clean_part(self) -> Part | None:
        words = self.cleaned_data["part"]
        if not words:
            return None
        part = part_named(words)
        if part is None:
            raise ValidationError(f"No part has the number or tag “{words}”.")
        return part


class PartLikenessForm(forms.Form):
    """How one part resembles a figure, chosen on the part's page."""

    figure = forms.ModelChoiceField(
        label="Figure",
        empty_label="choose one",
        queryset=PatentFigure.objects.filter(
            patent__withdrawn_at__isnull=True, picture__withdrawn_at__isnull=True
        ).select_related("patent"),
    )
    degree = forms.ChoiceField(label="How alike", choices=Likeness.Degree.choices)
    differences = forms.CharField(
        label="What differs", required=False, widget=forms.Textarea(attrs={"rows": 2})
    )


class MarkingForm(forms.Form):
    marking = forms.CharField(
        label="The marking, as far as it can be read",
        max_length=200,
        help_text="Write ? for each character that is worn away, such as PAT'D ?UG 1? 190?",
    )
