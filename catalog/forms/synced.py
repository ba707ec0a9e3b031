"""What a phone sends that worked without a signal, read as the forms of the pages read it."""

import datetime as dt
from collections.abc import Mapping
from typing import Any

from django import forms
from django.utils import timezone

from catalog.forms.captures import TakeInForm
from catalog.forms.places import MoveManyForm
from catalog.models import Photo
from catalog.operations.captures import Capture
from catalog.reckoning.clocks import corrected_moment


class MomentField(forms.Field):
    """A moment in milliseconds since 1970, as scripts have it."""

    default_error_messages = {"invalid": "The phone's time cannot be read."}

    def to_python(self, value: Any) -> dt.datetime | None:
        if value in self.empty_values:
            return None
        try:
            return dt.datetime.fromtimestamp(float(value) / 1000, tz=dt.UTC)
        except (TypeError, ValueError, OverflowError, OSError) as problem:
            raise forms.ValidationError(self.error_messages["invalid"]) from problem


class _WrittenOnAPhone(forms.Form):
    """The phone's own times; a wrong clock is set right by what it says at the sending."""

    written_at = MomentField(required=False)
    sent_at = MomentField(required=False)

    def moment(self) -> dt.datetime:
        now = timezone.now()
        written, sent = (self.cleaned_data[name] for name in ("written_at", "sent_at"))
        return corrected_moment(written, sent=sent, received=now) if written and sent else now


class SentPieceForm(TakeInForm, _WrittenOnAPhone):
    """A piece as a phone sends it; its photos follow one by one."""

    photos = None  # type: ignore[assignment]
    held = None  # type: ignore[assignment]
    photo_count = forms.IntegerField(required=False, min_value=0)

    def values(self) -> Capture:
        return {
            **super().values(),
            "photos_follow": bool(self.cleaned_data["photo_count"]),
            "at": self.moment(),
        }


class SentPhotoForm(_WrittenOnAPhone):
    """What a phone says of a photo beside sending it."""

    name = forms.CharField(max_length=200, required=False)
    role = forms.ChoiceField(choices=Photo.PictureRole.choices, required=False)

    def values(self) -> dict[str, Any]:
        return {
            "name": self.cleaned_data["name"],
            "role": self.cleaned_data["role"] or Photo.PictureRole.OVERALL,
            "taken_at": self.moment(),
        }


class SentMoveForm(MoveManyForm, _WrittenOnAPhone):
    """A move of several parts as a phone sends it."""


class BlankTakeInForm(TakeInForm):
    """The form of the page that a phone keeps: the script fills in what there is to choose."""

    FILLED_LATER = ("component", "vehicle_class", "accession", "location")

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        for name in self.FILLED_LATER:
            choice: Any = self.fields[name]
            choice.queryset = choice.queryset.none()


class BlankMoveForm(MoveManyForm):
    """The form of the move page that a phone keeps."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        location: Any = self.fields["location"]
        location.queryset = location.queryset.none()


def problems_in(form: forms.Form) -> Mapping[str, list[str]]:
    """Return what is wrong with each field, in words; under no name what concerns the whole."""
    return {
        "" if name == "__all__" else name: [str(words) for words in problems]
        for name, problems in form.errors.items()
    }
