"""The forms of a part: what is said of it, its marks, readings and identifications, its pieces."""

from typing import Any

from django import forms

from catalog.forms.base import RecordForm
from catalog.forms.captures import AT_LEAST_ONE, PIECES, AccessionChoiceField
from catalog.forms.choices import ComponentChoiceField, InstrumentChoiceField, SearchSelect
from catalog.forms.fields import MillimeterField, ReadingField
from catalog.forms.names import NamesInput
from catalog.models import (
    Accession,
    Characteristic,
    Identification,
    Part,
    PartMark,
    Vehicle,
    VehicleClass,
)
from catalog.queries.measurements import characteristics_of, names_of_characteristics


class TagField(forms.CharField):
    """A tag's code, left to the operation to be read, so that its refusal names the bearer."""

    def __init__(self, **options: Any) -> None:
        plain = {"autocapitalize": "characters", "autocomplete": "off"}
        options = {"max_length": 120, "required": False, **options}
        super().__init__(widget=forms.TextInput(plain), **options)


class QuantityField(forms.IntegerField):
    def __init__(self, **options: Any) -> None:
        messages = {"invalid": PIECES, "min_value": AT_LEAST_ONE}
        super().__init__(min_value=1, error_messages=messages, **options)


class PartForm(RecordForm):
    tag = TagField(help_text="The code on the label, such as K7Q-2M9V.")
    accession = AccessionChoiceField(
        Accession.objects.kept().select_related("party"),
        label="Donation",
        required=False,
        empty_label="none, or not known",
        widget=SearchSelect,
        help_text="Another donation gives the part another number.",
    )
    quantity = QuantityField(label="How many")

    field_order = ["description", "tag", "accession"]

    class Meta:
        model = Part
        fields = [
            "description",
            "quantity",
            "usability",
            "defect",
            "condition",
            "material",
            "mass_kg",
            "surviving_share",
            "castings_left",
            "hazards",
            "keep_with",
            "remarks",
            "is_published",
        ]
        widgets = {
            "hazards": forms.CheckboxSelectMultiple,
            "keep_with": SearchSelect,
            "remarks": forms.Textarea({"rows": 3}),
        }
        help_texts = {
            "surviving_share": "1 for a whole piece, 0.5 for half of one.",
            "castings_left": "Of a pattern on loan, as its owner allows. Count it down with each "
            "casting; leave it empty if nobody limits them.",
        }

    def __init__(self, *args: Any, may_publish: bool, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["keep_with"].queryset = Vehicle.objects.kept()  # type: ignore[attr-defined]
        self.fields["keep_with"].empty_label = "no vehicle"  # type: ignore[attr-defined]
        self.initial["surviving_share"] = f"{self.instance.surviving_share.normalize():f}"
        self.fields["tag"].initial = self.instance.tag
        self.fields["accession"].initial = self.instance.accession_id
        if not may_publish:
            del self.fields["is_published"]


class MarkForm(RecordForm):
    class Meta:
        model = PartMark
        fields = ["text", "manner", "place", "meaning"]
        widgets = {"text": forms.TextInput({"autocapitalize": "characters", "autocomplete": "off"})}


class MeasuringPlaceField(forms.ModelChoiceField):  # type: ignore[type-arg]
    """A characteristic, offered with where on the piece it is measured."""

    def label_from_instance(self, characteristic: Any) -> str:
        where = characteristic.where_to_measure
        return f"{characteristic}: {where}" if where else str(characteristic)


class MeasurementForm(forms.Form):
    """Where it was measured is chosen, once people know what the part is."""

    characteristic = MeasuringPlaceField(
        Characteristic.objects.none(), label="Measured at", empty_label="choose one"
    )
    name = forms.CharField(
        label="What was measured",
        max_length=80,
        widget=NamesInput(names_of_characteristics),
        help_text="In a name from the list it can be weighed; any other is kept as words.",
    )
    length = ReadingField()
    instrument = InstrumentChoiceField()
    allowance_mm = MillimeterField(
        label="Rust, paint or wear, each way",
        required=False,
        help_text="How far it may be off, such as 0.5 mm.",
    )
    uncertainty_mm = MillimeterField(
        label="Standard uncertainty, if you know better",
        required=False,
        help_text="Takes the place of the instrument's and of the allowance.",
    )
    note = forms.CharField(max_length=240, required=False)

    def __init__(self, *args: Any, part: Part, **options: Any) -> None:
        super().__init__(*args, **options)
        known = characteristics_of(part)
        if not known:
            del self.fields["characteristic"]
            return
        del self.fields["name"]
        keys = [one.pk for one in known]
        rows = Characteristic.objects.filter(pk__in=keys)
        self.fields["characteristic"].queryset = rows  # type: ignore[attr-defined]


class IdentifyForm(forms.Form):
    component = ComponentChoiceField(label="What it is", required=True)
    vehicle_class = forms.ModelChoiceField(
        VehicleClass.objects.kept(), label="Of which class", required=False, empty_label="not known"
    )
    confidence = forms.ChoiceField(
        label="How sure you are",
        choices=Identification.Confidence.choices,
        initial=Identification.Confidence.PROBABLE,
    )
    basis = forms.ChoiceField(
        label="What it rests on",
        choices=Identification.Basis.choices,
        initial=Identification.Basis.OPINION,
    )
    reasons = forms.CharField(
        required=False,
        widget=forms.Textarea({"rows": 3}),
        help_text="What speaks for it, and what against.",
    )


class OpinionForm(forms.Form):
    """Agreement is one tap and needs no reasons; a dispute without any helps nobody."""

    # What has to be filled in depends on what is chosen, which a browser cannot know.
    use_required_attribute = False

    agrees = forms.TypedChoiceField(
        label="What you think",
        choices=[("yes", "I agree"), ("no", "I think otherwise")],
        coerce=lambda value: value == "yes",
        widget=forms.RadioSelect,
    )
    reasons = forms.CharField(
        label="Your reasons",
        required=False,
        widget=forms.Textarea({"rows": 3}),
        help_text="What you saw on the piece. Whoever thinks otherwise has to say why.",
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        # Shown as one that must be filled in, where somebody comes to dispute.
        self.fields["reasons"].required = self["agrees"].value() == "no"
        self.fields["reasons"].error_messages["required"] = "Say why you think otherwise."


class SplitForm(forms.Form):
    quantity = QuantityField(label="How many to split off", initial=1)
    description = forms.CharField(label="In words", max_length=240, required=False)
    tag = TagField(help_text="If the piece gets a label of its own.")
    usability = forms.ChoiceField(choices=Part.Usability.choices)
    defect = forms.CharField(label="What is wrong with it", max_length=240, required=False)

    def values(self) -> dict[str, Any]:
        """Return what is different about the piece; what is left empty is like the lot."""
        return {name: value for name, value in self.cleaned_data.items() if value}
