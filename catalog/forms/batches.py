"""The form by which photos become parts, all at once or one by one behind a script."""

from typing import Any

from django import forms

from catalog.forms.captures import AccessionChoiceField
from catalog.forms.choices import SearchSelect
from catalog.forms.photos import PhotosField
from catalog.models import Accession, Location, Part

MOST_PHOTOS = 100


class _WhereForm(forms.Form):
    accession = AccessionChoiceField(
        Accession.objects.open().select_related("party"),
        label="Donation",
        required=False,
        empty_label="none, or not known",
    )
    location = forms.ModelChoiceField(
        Location.objects.kept().order_by("path"),
        required=False,
        empty_label="not said",
        widget=SearchSelect,
    )
    photos = PhotosField(label="Photos")

    def where(self) -> dict[str, Any]:
        return {name: self.cleaned_data[name] for name in ("accession", "location")}


class BatchForm(_WhereForm):
    """Photos that are sent all at once."""

    field_order = ["accession", "location", "together", "photos"]
    together = forms.TypedChoiceField(
        label="What is chosen or dropped together",
        choices=[("0", "each photo is a piece of its own"), ("1", "all photos show one piece")],
        coerce=lambda text: text == "1",
        initial="0",
        widget=forms.RadioSelect,
    )

    def clean_photos(self) -> list[Any]:
        photos: list[Any] = self.cleaned_data["photos"]
        if len(photos) > MOST_PHOTOS:
            raise forms.ValidationError(f"Choose at most {MOST_PHOTOS} photos at once.")
        return photos


class OnePhotoForm(_WhereForm):
    """One photo of a batch, as the script sends it: with the mark by which it is known again."""

    capture_id = forms.UUIDField()
    part = forms.ModelChoiceField(Part.objects.kept(), required=False)
