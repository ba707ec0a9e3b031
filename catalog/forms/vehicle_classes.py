"""The forms of a vehicle class, of its drawings, and of how it differs from its base."""

from typing import Any

from django import forms

from catalog.forms.base import DatedForm
from catalog.forms.choices import SearchSelect, SourceChoiceField
from catalog.forms.fields import VagueDateField
from catalog.models import Deviation, Drawing, Party, Position, VehicleClass
from catalog.queries.positions import positions_of_class


class VehicleClassForm(DatedForm):
    date_text = VagueDateField(
        label="Built", required=False, help_text="The years of building: from 1896 to 1908."
    )

    class Meta:
        model = VehicleClass
        fields = [
            "designation",
            "name",
            "gauge_text",
            "wheel_arrangement",
            "builder",
            "date_text",
            "based_on",
            "notes",
            "is_published",
        ]
        widgets = {
            "gauge_text": forms.TextInput(attrs={"autocomplete": "off"}),
            "builder": SearchSelect,
            "notes": forms.Textarea(attrs={"rows": 4}),
        }
        help_texts = {
            "designation": "As the line or its builder called it: Class E.",
            "name": "Such as four-wheel end-tipping wagon.",
            "gauge_text": "As it is called: 2 ft 6 in, 600 mm, meter.",
            "wheel_arrangement": "Such as 0-4-0T, or B in axles.",
        }

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        others = VehicleClass.objects.kept().exclude(pk=self.instance.pk or 0)
        self.fields["based_on"].queryset = others  # type: ignore[attr-defined]
        self.fields["based_on"].empty_label = "no other class"  # type: ignore[attr-defined]
        self.fields["builder"].queryset = Party.objects.kept()  # type: ignore[attr-defined]
        self.fields["builder"].empty_label = "not known yet"  # type: ignore[attr-defined]


class DrawingForm(forms.Form):
    """A picture of a view of the class."""

    title = forms.CharField(
        label="What it shows",
        max_length=Drawing._meta.get_field("title").max_length,
        help_text="Such as plan of the underframe, body removed.",
    )
    file = forms.FileField(
        label="Picture of the drawing", widget=forms.ClearableFileInput({"accept": "image/*"})
    )
    source = SourceChoiceField(label="Drawing that it is a copy of")


class SpotForm(forms.Form):
    """Where a position stands on a drawing, in percent, so that it can be typed or tapped."""

    position = forms.ModelChoiceField(
        label="Position", queryset=Position.objects.none(), empty_label=None
    )
    across = forms.FloatField(label="From the left, in %", min_value=0, max_value=100)
    down = forms.FloatField(label="From the top, in %", min_value=0, max_value=100)

    def __init__(self, *args: Any, vehicle_class: VehicleClass, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["position"].queryset = _positions(vehicle_class)  # type: ignore[attr-defined]


class ClassDifferenceForm(forms.Form):
    """How a class differs from the class that it is based on."""

    KINDS = (
        (Deviation.Kind.DROPPED, "it does not have this position"),
        (Deviation.Kind.RESPECIFIED, "other limits hold at this position"),
        (Deviation.Kind.ADDED, "why it has this position besides"),
        (Deviation.Kind.NOTED, "otherwise different"),
    )

    kind = forms.ChoiceField(label="How it differs", choices=KINDS)
    position = forms.ModelChoiceField(
        label="Position",
        queryset=Position.objects.none(),
        required=False,
        widget=SearchSelect,
        empty_label="no position in particular",
    )
    reason = forms.CharField(label="In words, and how it is known", max_length=240)
    since = forms.CharField(label="Since when", max_length=120, required=False)

    def __init__(self, *args: Any, vehicle_class: VehicleClass, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["position"].queryset = _positions(vehicle_class)  # type: ignore[attr-defined]


def _positions(vehicle_class: VehicleClass) -> Any:
    keys = [position.pk for position in positions_of_class(vehicle_class)]
    return Position.objects.filter(pk__in=keys).select_related("component")
