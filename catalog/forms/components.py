"""The forms of a component and of what belongs to it."""

from typing import Any

from django import forms
from django.utils.html import format_html

from catalog.forms.alias_lines import AliasLineField, write_alias_line
from catalog.forms.base import RecordForm
from catalog.forms.choices import (
    CharacteristicChoiceField,
    ComponentChoiceField,
    SearchSelect,
    SourceChoiceField,
)
from catalog.forms.fields import ClearanceField
from catalog.forms.photos import ACCEPTED
from catalog.models import Characteristic, Component, KnownMark, MatingRule, VehicleClass


class ComponentForm(RecordForm):
    aliases = AliasLineField()
    broader = ComponentChoiceField(
        label="Is a kind of", required=False, empty_label="nothing broader"
    )

    class Meta:
        model = Component
        fields = [
            "name",
            "aliases",
            "definition",
            "broader",
            "hazards",
            "making_hours",
            "repair_hours",
            "making_cost",
            "repair_cost",
        ]
        widgets = {
            "definition": forms.Textarea(attrs={"rows": 3}),
            "hazards": forms.CheckboxSelectMultiple,
        }
        labels = {"definition": "What it is", "hazards": "Hazards that such a piece can carry"}
        help_texts = {"name": "As the group says it, in the singular: journal box."}

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        if self.instance.pk:
            self.initial["aliases"] = write_alias_line(self.instance.aliases.all())


class PictureChoiceField(forms.ModelChoiceField):  # type: ignore[type-arg]
    """A picture, chosen by looking at it: captions may be missing or alike."""

    widget = forms.RadioSelect

    def label_from_instance(self, picture: Any) -> str:
        words = self.words_for(picture)
        height = round(96 * picture.height / picture.width)
        seen = '<img class="choice-picture" src="{}" width="96" height="{}" alt="" loading="lazy">'
        return format_html(f"{seen} <span>{{}}</span>", picture.url_320, height, words)

    def words_for(self, picture: Any) -> str:
        return str(picture)


class CharacteristicForm(RecordForm):
    file = forms.FileField(
        label="New picture that shows where",
        required=False,
        widget=forms.FileInput({"accept": ACCEPTED}),
        help_text="A photo with the place marked, or a drawing.",
    )

    class Meta:
        model = Characteristic
        fields = ["name", "where_to_measure", "file", "picture", "sequence"]
        field_classes = {"picture": PictureChoiceField}
        widgets = {
            "where_to_measure": forms.Textarea({"rows": 3}),
            "picture": forms.RadioSelect,
        }
        labels = {
            "name": "What is measured",
            "picture": "Or one that is here already",
            "sequence": "Place in the order",
        }
        help_texts = {
            "name": "Such as journal diameter or bolt centers.",
            "where_to_measure": "Such as: across the brass, an inch from the end.",
        }

    def __init__(self, *args: Any, component: Component, **options: Any) -> None:
        super().__init__(*args, **options)
        photos = component.photos.in_order()
        self.fields["picture"].queryset = photos  # type: ignore[attr-defined]
        self.fields["picture"].empty_label = "no picture"  # type: ignore[attr-defined]
        if not photos:
            del self.fields["picture"]
        if not self.instance.pk:
            del self.fields["sequence"]


class MatingRuleForm(RecordForm):
    outer = CharacteristicChoiceField(
        label="Outer piece",
        empty_label="choose one",
        help_text="What goes around: the bore of a brass.",
    )
    inner = CharacteristicChoiceField(
        label="Inner piece",
        empty_label="choose one",
        help_text="What goes into it: the journal of a wheelset.",
    )
    least_mm = ClearanceField(
        label="Least clearance",
        required=False,
        help_text="Such as 1/64 in or 0.1 mm; with a minus where the two are pressed together.",
    )
    greatest_mm = ClearanceField(label="Greatest clearance", required=False)
    worn_greatest_mm = ClearanceField(label="Greatest clearance when worn", required=False)
    source = SourceChoiceField()
    locator = forms.CharField(label="Page, sheet or minute", max_length=120, required=False)

    class Meta:
        model = MatingRule
        fields = ["outer", "inner", "least_mm", "greatest_mm", "worn_greatest_mm", "is_required"]
        fields += ["note"]
        labels = {"is_required": "Required, not advisory only"}

    def __init__(self, *args: Any, component: Component | None = None, **options: Any) -> None:
        super().__init__(*args, **options)
        if component is not None and not self.instance.pk:
            self.initial["outer"] = component.characteristics.first()
        if self.instance.pk:
            cited = self.instance.citations.select_related("source")
            self.fields["source"].say_behind(cited)  # type: ignore[attr-defined]


class KnownMarkForm(RecordForm):
    class Meta:
        model = KnownMark
        fields = ["text", "vehicle_class", "note"]
        labels = {"text": "Mark or pattern number", "vehicle_class": "Of class"}
        widgets = {"vehicle_class": SearchSelect}
        help_texts = {"text": "As it stands on a good casting."}

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["vehicle_class"].queryset = VehicleClass.objects.kept()  # type: ignore[attr-defined]
        self.fields["vehicle_class"].empty_label = "any class"  # type: ignore[attr-defined]
