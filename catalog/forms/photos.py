"""Forms about photos: several files at once, what a photo shows, a spot on it."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalog.forms.base import RecordForm
from catalog.models import Photo

ACCEPTED = "image/*,.heic,.heif"
MOST_MEGABYTES = 60


class SeveralFiles(forms.ClearableFileInput):
    allow_multiple_selected = True


class PhotosField(forms.FileField):
    """Any number of photographs; what they are is seen when they are kept."""

    def __init__(self, **options: Any) -> None:
        attrs = {"accept": ACCEPTED, **options.pop("attrs", {})}
        options.setdefault("widget", SeveralFiles(attrs))
        super().__init__(**options)

    def clean(self, data: Any, initial: Any = None) -> list[Any]:
        files = data if isinstance(data, list | tuple) else [data]
        taken = [file for file in files if file]
        if self.required and not taken:
            raise ValidationError("Choose at least one photo.")
        for file in taken:
            if file.size > MOST_MEGABYTES * 1_000_000:
                raise ValidationError(f"{file.name} is larger than {MOST_MEGABYTES} MB.")
        return taken


class PhotosForm(forms.Form):
    """Photos for a record, with the role that they share."""

    photos = PhotosField(label="Photos")
    role = forms.ChoiceField(
        label="What they show", choices=Photo.PictureRole.choices, required=False
    )

    def clean_role(self) -> str:
        return self.cleaned_data["role"] or Photo.PictureRole.OVERALL


class OneMorePhotoForm(PhotosForm):
    """One of many photos for a record, with the mark by which it is known when it is sent again."""

    capture_id = forms.UUIDField()


class PhotoForm(RecordForm):
    class Meta:
        model = Photo
        fields = ["role", "caption", "sequence", "is_published"]
        labels = {"role": "What it shows", "sequence": "Place in the order"}

    def __init__(self, *args: Any, may_publish: bool = False, **options: Any) -> None:
        super().__init__(*args, **options)
        if not may_publish:
            del self.fields["is_published"]


class SpotForm(forms.Form):
    """A spot in percent of the photo, so that it can be typed as well as tapped."""

    words = forms.CharField(
        label="What is there", max_length=160, help_text="Tap the photo, then say it: crack, lug …"
    )
    across = forms.FloatField(label="From the left, in %", min_value=0, max_value=100)
    down = forms.FloatField(label="From the top, in %", min_value=0, max_value=100)
