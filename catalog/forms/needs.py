"""Choosing among the open positions of all vehicles."""

from typing import Any

from django import forms

from catalog.forms.choices import SearchSelect
from catalog.models import Vehicle
from catalog.queries.open_positions import assemblies
from catalog.queries.routes import NAMES


class OpenPositionsForm(forms.Form):
    """By vehicle, assembly and route; what is left empty chooses nothing."""

    vehicle = forms.ChoiceField(required=False, widget=SearchSelect)
    assembly = forms.ChoiceField(required=False)
    route = forms.ChoiceField(
        label="Route", required=False, choices=[("", "any route"), *NAMES.items()]
    )

    def __init__(self, *args: Any, vehicles: list[Vehicle], **options: Any) -> None:
        super().__init__(*args, **options)
        self.vehicles = vehicles
        named = [(vehicle.slug, str(vehicle)) for vehicle in vehicles]
        names = [(name, name) for name in assemblies()]
        for field, choices in (
            ("vehicle", [("", "all vehicles"), *named]),
            ("assembly", [("", "every assembly"), *names]),
        ):
            self.fields[field].choices = choices  # type: ignore[attr-defined]

    @property
    def is_chosen(self) -> bool:
        return self.is_valid() and any(self.cleaned_data.values())

    @property
    def chosen_vehicles(self) -> list[Vehicle]:
        slug = self.cleaned_data["vehicle"]
        return [vehicle for vehicle in self.vehicles if slug in ("", vehicle.slug)]
