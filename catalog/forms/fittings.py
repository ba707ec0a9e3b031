"""What is told when a part is taken off."""

from typing import Any

from django import forms

from catalog.forms.base import RecordForm
from catalog.forms.choices import SearchSelect
from catalog.forms.parts import TagField
from catalog.forms.photos import PhotosField
from catalog.models import Location, Removal


class RemovalForm(RecordForm):
    photos = PhotosField(
        label="Photos of how it sat",
        required=False,
        help_text="One before a bolt is turned is worth more than all that is written here.",
    )
    tag = TagField(label="Tag tied on", help_text="The code on the label, if it bears none yet.")
    location = forms.ModelChoiceField(
        queryset=Location.objects.kept().order_by("path"),
        required=False,
        label="Where it is put down",
        empty_label="not said",
        widget=SearchSelect,
    )

    class Meta:
        model = Removal
        fields = ["orientation", "shims", "fastenings", "note"]
        widgets = {"note": forms.Textarea(attrs={"rows": 3})}
        labels = {"orientation": "Which way round"}

    field_order = ("photos", "tag", "orientation", "shims", "fastenings", "location", "note")

    def values(self) -> dict[str, Any]:
        """Return how it sat; the photos and the tag are for other acts."""
        apart = ("photos", "tag")
        return {name: value for name, value in super().values().items() if name not in apart}
