"""The forms of a want, for members, and of an answer to it, for everybody."""

from typing import Any

from django import forms
from django.core import signing
from django.core.exceptions import ValidationError

from catalog.forms.base import RecordForm
from catalog.forms.choices import ComponentChoiceField
from catalog.forms.components import PictureChoiceField
from catalog.models import Answer, Source, Want
from catalog.queries.photos import pictured
from catalog.queries.wants import pictures_for

HELPS = ("helps_piece", "helps_photo", "helps_drawing", "helps_look")
FROM_POSITION = ("vehicle", "position", "picture", "drawing")
# Nobody reads a want and writes an answer in less; programs do.
LEAST_SECONDS = 3
LONGEST_SECONDS = 24 * 3600
STAMP = "catalog.answers"


class WantPictureField(PictureChoiceField):
    """A picture for a want, with what it shows and whether visitors see it."""

    def words_for(self, picture: Any) -> str:
        hidden = "" if picture.is_published else ", not shown to visitors yet"
        return f"{picture}: {pictured(picture)}{hidden}"


class WantForm(RecordForm):
    """A want as it will be read; vehicle, position, picture and drawing come with the position.

    Once it is written, its picture is chosen among those of the component and of the vehicle.
    """

    component = ComponentChoiceField(empty_label="choose one")

    class Meta:
        model = Want
        fields = [
            *("title", "component", "quantity", "words", "dimensions", "marks", *HELPS),
            *FROM_POSITION,
        ]
        widgets = {
            "words": forms.Textarea(attrs={"rows": 4}),
            "dimensions": forms.Textarea(attrs={"rows": 4}),
            **dict.fromkeys(FROM_POSITION, forms.HiddenInput),
        }
        labels = {
            "title": "What is wanted, in a few words",
            "words": "More about it",
            "quantity": "How many",
            **{name: f"Would help: {Want._meta.get_field(name).verbose_name}" for name in HELPS},  # type: ignore[union-attr]
        }
        help_texts = {
            "words": "Once it is published everybody reads this: no names, no places of storage."
        }

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        if self.instance.pk:
            self.fields["picture"] = WantPictureField(
                queryset=pictures_for(self.instance),
                required=False,
                empty_label="no picture",
                help_text=(
                    "Photos of the component, of pieces of it and of the vehicle. "
                    "Add others on the pages of these."
                ),
            )


class AnswerForm(forms.ModelForm):  # type: ignore[type-arg]
    """What a reader of a public want sends back.

    ``website`` is a trap that people do not see, and ``stamp`` says when the page was made.
    """

    website = forms.CharField(required=False, label="Leave this empty")
    stamp = forms.CharField(required=False, widget=forms.HiddenInput)

    class Meta:
        model = Answer
        fields = ["words", "name", "contact", "has_consent"]
        widgets = {"words": forms.Textarea(attrs={"rows": 5})}
        labels = {
            "words": "What do you have, or know?",
            "name": "Your name",
            "contact": "How we can reach you",
            "has_consent": (
                "The group may keep this answer and my contact, to reply to me. "
                "Its stewards read them; what they keep, members of the group can read, "
                "and nobody outside."
            ),
        }
        help_texts = {"contact": "Mail or telephone."}
        error_messages = {"has_consent": {"required": "Please agree, or nothing can be kept."}}

    field_order = ("words", "name", "contact", "has_consent", "website", "stamp")

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["has_consent"].required = True
        self.fields["stamp"].initial = signing.dumps("answer", salt=STAMP)
        self.fields["website"].widget.attrs.update({"tabindex": "-1", "autocomplete": "off"})
        self.fields["name"].widget.attrs["autocomplete"] = "name"

    def clean(self) -> dict[str, Any]:
        typed = super().clean() or self.cleaned_data
        if typed.get("website"):
            raise ValidationError("The field that is to be left empty was filled. Empty it again.")
        self._check_stamp(typed.get("stamp", ""))
        return typed

    def _check_stamp(self, stamp: str) -> None:
        try:
            signing.loads(stamp, salt=STAMP, max_age=LONGEST_SECONDS)
        except signing.BadSignature as refusal:
            # What was typed goes out again with a new stamp, so that nothing is typed twice.
            new = signing.dumps("answer", salt=STAMP)
            self.data = {**dict(self.data.items()), "stamp": new}
            problem = "The page was open for long. Read it over, and send it once more."
            raise ValidationError(problem) from refusal
        if _is_fresh(stamp):
            raise ValidationError("That was quick. Read it over, and send it once more.")

    def values(self) -> dict[str, Any]:
        return {name: self.cleaned_data[name] for name in self._meta.fields or ()}


def _is_fresh(stamp: str) -> bool:
    try:
        signing.loads(stamp, salt=STAMP, max_age=LEAST_SECONDS)
    except signing.SignatureExpired:
        return False
    return True


class ClosingForm(forms.Form):
    words = forms.CharField(
        label="How it was answered",
        max_length=240,
        required=False,
        help_text="Such as: a drawhead came from a farm. Members read it.",
    )


class AcknowledgeForm(forms.Form):
    came_of_it = forms.CharField(label="What came of it", max_length=240, required=False)


class AnswerRemovalForm(forms.Form):
    why = forms.ChoiceField(
        label="Why it is removed", choices=Answer.Removal.choices, widget=forms.RadioSelect
    )


class AnswerSourceForm(forms.Form):
    kind = forms.ChoiceField(
        label="What it is", choices=Source.Kind.choices, initial=Source.Kind.SURVIVOR
    )
    title = forms.CharField(
        label="Title",
        max_length=240,
        required=False,
        help_text="Without the writer's name: visitors read it once it is published.",
    )
