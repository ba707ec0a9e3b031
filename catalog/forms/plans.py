"""The form of a new plan: which vehicles, in which order, and what is held back."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalog.models import Part, Plan, Vehicle
from catalog.operations.plans import LONGEST_SECONDS, Order

MOST_VEHICLES = 500
STILL_THE_ORDER = (
    "The numbers below are still the proposed places in the order: they would count the first "
    "vehicle least. Give larger numbers to those that count more, and 1 to the others."
)
# What a plan may count on besides parts that could be used now.
COUNTED_ON = ("repairs", "patterns", "drawings")


class PlanForm(forms.Form):
    """A number beside each vehicle: its place in the order, or how much it counts."""

    name = forms.CharField(label="Name of the plan", max_length=120)
    order = forms.ChoiceField(
        label="What the numbers mean",
        choices=[
            (Order.STRICT, "the place in the order: 1 is served before 2; equal numbers are equal"),
            (Order.EQUAL, "nothing: all that have a number are equal"),
            (Order.WEIGHTS, "how much each counts: 3 counts as much as three that have 1"),
        ],
        initial=Order.STRICT,
        widget=forms.RadioSelect,
    )
    meant_as_weights = forms.BooleanField(
        label="These numbers do say how much each counts", required=False
    )
    held = forms.CharField(
        label="Parts held back for one vehicle",
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="One a line: the number or tag of the part, “for”, and the vehicle.",
    )
    repairs = forms.BooleanField(
        label="Parts that need repair",
        required=False,
        help_text="Each repair counts with the hours that stand with its component.",
    )
    patterns = forms.BooleanField(
        label="New pieces made from patterns in hand",
        required=False,
        help_text="A pattern can be used again and again. One that is kept for a vehicle makes "
        "pieces for that one only.",
    )
    drawings = forms.BooleanField(
        label="New pieces made after drawings or patent figures",
        required=False,
        help_text="Also where the dimensions are not recorded yet.",
    )
    seconds = forms.IntegerField(
        label="The most seconds it may take",
        initial=30,
        min_value=1,
        max_value=LONGEST_SECONDS,
        help_text="When they are over, the best so far is shown with what it could still gain.",
    )

    def __init__(
        self, *args: Any, vehicles: list[Vehicle], like: Plan | None = None, **options: Any
    ) -> None:
        if like:
            options["initial"] = _wishes_of(like, vehicles)
        super().__init__(*args, **options)
        self.vehicles = vehicles
        for place, vehicle in enumerate(vehicles, start=1):
            self.fields[f"vehicle_{vehicle.pk}"] = forms.IntegerField(
                label=str(vehicle), required=False, min_value=1, max_value=1000, initial=place
            )

    @property
    def counted_on(self) -> list[forms.BoundField]:
        """Return the fields of what else counts, for the page to set apart."""
        return [self[name] for name in COUNTED_ON]

    @property
    def numbers(self) -> list[forms.BoundField]:
        """Return the fields of the vehicles, for the page to set apart."""
        return [self[f"vehicle_{vehicle.pk}"] for vehicle in self.vehicles]

    def clean(self) -> dict[str, Any]:
        """Refuse the untouched order as weights: it would count the first vehicle least."""
        typed = super().clean() or self.cleaned_data
        is_weighed = typed.get("order") == Order.WEIGHTS and not typed.get("meant_as_weights")
        if is_weighed and self._is_order_untouched(typed):
            self.add_error("order", ValidationError(STILL_THE_ORDER, code="untouched"))
        return typed

    @property
    def asks_whether_meant(self) -> bool:
        """Say whether to offer that the numbers are meant so, which they can be for all we know."""
        return self.has_error("order", code="untouched")

    def _is_order_untouched(self, typed: dict[str, Any]) -> bool:
        # A vehicle left out changes nothing: 1, 2 and 4 are still the places proposed.
        numbers = [
            (typed.get(f"vehicle_{vehicle.pk}"), place)
            for place, vehicle in enumerate(self.vehicles, start=1)
        ]
        given = [(number, place) for number, place in numbers if number]
        return len(given) > 1 and all(number == place for number, place in given)

    def clean_held(self) -> list[tuple[Part, Vehicle]]:
        lines = (line.strip() for line in self.cleaned_data["held"].splitlines())
        return [self._held(line) for line in lines if line]

    def values(self) -> dict[str, Any]:
        typed = self.cleaned_data
        numbers = {vehicle: typed[f"vehicle_{vehicle.pk}"] for vehicle in self.vehicles}
        return {
            **{name: typed[name] for name in ("name", "order", "held", "seconds")},
            **{name: typed[name] for name in COUNTED_ON},
            "numbers": {vehicle: number for vehicle, number in numbers.items() if number},
        }

    def _held(self, line: str) -> tuple[Part, Vehicle]:
        label, _, name = line.partition(" for ")
        vehicle = next((v for v in self.vehicles if _same(name, str(v))), None)
        if vehicle is None:
            raise ValidationError(
                f"“{line}”: write the number or tag, “for”, and a vehicle such as "
                f"“{self.vehicles[0] if self.vehicles else 'Wagon 31'}”."
            )
        code = label.strip().removeprefix("tag ")
        kept = Part.objects.kept()
        part = kept.filter(number=code).first() or kept.filter(tag__iexact=code).first()
        if part is None:
            raise ValidationError(f"There is no part with the number or tag “{code}”.")
        return part, vehicle


def _wishes_of(plan: Plan, vehicles: list[Vehicle]) -> dict[str, Any]:
    """Return what the form of a plan held, so far as its vehicles are still here."""
    told = plan.inputs
    numbers = {key: number for key, _, number in told["numbers"]}
    return {
        "name": plan.name,
        **{name: told[name] for name in ("order", "seconds", *COUNTED_ON) if name in told},
        "held": "\n".join(f"{part} for {vehicle}" for _, part, _, vehicle in told["held"]),
        **{f"vehicle_{vehicle.pk}": numbers.get(vehicle.pk) for vehicle in vehicles},
    }


class ComparisonForm(forms.Form):
    """The two plans to lay side by side; only what is worked out can be compared."""

    first = forms.ModelChoiceField(
        Plan.objects.ready(), label="From this plan", empty_label="choose one"
    )
    second = forms.ModelChoiceField(
        Plan.objects.ready(), label="To this plan", empty_label="choose another"
    )


def _same(typed: str, name: str) -> bool:
    return " ".join(typed.split()).casefold() == name.casefold()
