"""One corner of a tip wagon for tests of fit: a box, two brasses and three wheelsets in hand.

The worn brass fits the worn wheelset by the limit of wear only; the wheelset of 3 in is foreign,
and one wheelset has not been measured.
"""

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from catalog.models import Characteristic, Component, Part, Vehicle, VehicleClass
from catalog.queries.fit_mates import MateFits
from catalog.queries.fits import Fits
from tests.factories import (
    CharacteristicFactory,
    ComponentFactory,
    InstrumentFactory,
    MatingRuleFactory,
    MeasurementFactory,
    PartFactory,
    PositionFactory,
    SpecificationFactory,
    VehicleClassFactory,
    VehicleFactory,
)

CODES = {"wheelset": ("A1", "A2"), "bearing brass": ("L1", "R1"), "journal box": ("L1", "R1")}


@dataclass
class Corner:
    """The class, what it is made of, and the pieces in hand by what people call them."""

    vehicle_class: VehicleClass
    components: dict[str, Component]
    characteristics: dict[str, Characteristic]
    parts: dict[str, Part]
    vehicle: Vehicle

    def at(self, code: str, component: str) -> dict[str, Any]:
        """Return the vehicle and its position, as trials and sheets of positions take them."""
        kind = self.components[component]
        position = self.vehicle_class.positions.get(code=code, component=kind)
        return {"vehicle": self.vehicle, "position": position}

    def part(self, called: str, component: str | None, **values) -> Part:
        kind = self.components[component] if component else None
        given = {"component": kind, "identification_status": "agreed", "usability": "ready"}
        if kind is None:
            given["identification_status"] = "unidentified"
        number = len(self.parts) + 1
        named = {"number": f"2026.1.{number}", "number_sort": f"2026.00001.{number:06d}"}
        self.parts[called] = PartFactory(**{**given, **named, "description": called, **values})
        return self.parts[called]

    def measure(self, called: str, name: str, *readings: str, uncertainty: str = "0.029") -> None:
        """Write readings in mm down; an unidentified part is measured at a name alone."""
        part = self.parts[called]
        for reading in readings:
            MeasurementFactory(
                part=part,
                characteristic=self.characteristics.get(name) if part.component else None,
                name=name,
                text=f"{reading} mm",
                value_mm=Decimal(reading),
                uncertainty_mm=Decimal(uncertainty),
            )


def _kinds():
    components = {name: ComponentFactory(name=name) for name in CODES}
    measured = {
        "journal diameter": ("wheelset", "Across the bearing surface of the journal."),
        "bore": ("bearing brass", "Across the bearing surface, square to it."),
        "axle hole": ("journal box", "Across the hole at the back."),
        "flange width": ("journal box", "Over the flange."),
    }
    characteristics = {
        name: CharacteristicFactory(
            component=components[component], name=name, where_to_measure=where
        )
        for name, (component, where) in measured.items()
    }
    return components, characteristics


def lay_out_corner() -> Corner:
    """Make the class with its limits and rules, a wagon with all positions open, and no parts."""
    kind = VehicleClassFactory(designation="Class E")
    components, measured = _kinds()
    for name, codes in CODES.items():
        for code in codes:
            PositionFactory(vehicle_class=kind, component=components[name], code=code)
    limits = {
        "journal diameter": ("63.1", "63.9", "57.15", None),
        "bore": ("63.5", "65.1", None, "68.3"),
        "flange width": ("250", "258", None, None),
    }
    for name, (lower, upper, worn_lower, worn_upper) in limits.items():
        SpecificationFactory(
            vehicle_class=kind,
            characteristic=measured[name],
            lower_mm=Decimal(lower),
            upper_mm=Decimal(upper),
            worn_lower_mm=worn_lower and Decimal(worn_lower),
            worn_upper_mm=worn_upper and Decimal(worn_upper),
        )
    MatingRuleFactory(
        outer=measured["bore"],
        inner=measured["journal diameter"],
        greatest_mm=Decimal("2.38125"),
        worn_greatest_mm=Decimal("4.7625"),
    )
    MatingRuleFactory(
        outer=measured["axle hole"],
        inner=measured["journal diameter"],
        least_mm=Decimal("19.05"),
        greatest_mm=Decimal("31.75"),
        is_required=False,
    )
    vehicle = VehicleFactory(label="Wagon 31", vehicle_class=kind, restoration_order=1)
    return Corner(kind, components, measured, {}, vehicle)


def lay_out_pieces() -> Corner:
    """Put the pieces on the shelf as the farm clearance and the pallet brought them."""
    corner = lay_out_corner()
    InstrumentFactory(slug="vernier-caliper", name="Vernier caliper", uncertainty_mm="0.029")
    corner.part("worn brass", "bearing brass")
    corner.part("box", "journal box")
    corner.part("worn wheelset", "wheelset")
    corner.part("unmeasured wheelset", "wheelset")
    corner.part("foreign wheelset", "wheelset")
    corner.measure("worn brass", "bore", "66.9", "67.0")
    corner.measure("box", "axle hole", "89.7")
    corner.measure("worn wheelset", "journal diameter", "63.1", "63.0")
    corner.measure("foreign wheelset", "journal diameter", "76.2", uncertainty="0.47")
    return corner


def group(fits: Fits, component: str) -> MateFits:
    """Return what is said of the mating parts of one component."""
    return next(one for one in fits.mates if one.component.name == component)
