"""A small shop for tests of what is needed: three wagons of one class, and what is in hand.

Wagon 14 can be finished from what is in hand; wagon 22 then lacks exactly one drawhead, for
which half a drawhead is a pattern; wagon 31 is a bare frame.
"""

from dataclasses import dataclass, field
from decimal import Decimal

from catalog.models import Component, Fitting, Member, Part, Plan, Position, Vehicle, VehicleClass
from catalog.operations.plan_work import work_plan
from catalog.operations.plans import make_plan
from tests.factories import (
    CharacteristicFactory,
    ComponentFactory,
    FittingFactory,
    MatingRuleFactory,
    MeasurementFactory,
    PartFactory,
    PositionFactory,
    SpecificationFactory,
    VehicleClassFactory,
    VehicleFactory,
)

# For each component: its assembly and the codes of its positions.
LAID_OUT = {
    "journal box": ("running gear", ("L1", "R1")),
    "drawhead": ("draw gear", ("A", "B")),
    "hinge": ("body", ("HL", "HR")),
}


@dataclass
class Tramway:
    """The class, its components by name, and a way to name positions and vehicles."""

    vehicle_class: VehicleClass
    components: dict[str, Component]
    vehicles: dict[str, Vehicle] = field(default_factory=dict)

    def position(self, component: str, code: str) -> Position:
        return Position.objects.get(component=self.components[component], code=code)

    def part(self, component: str, **values) -> Part:
        """Put a part of this class on the shelf, ready and agreed on."""
        given = {
            "component": self.components[component],
            "vehicle_class": self.vehicle_class,
            "identification_status": "agreed",
            "usability": "ready",
        }
        return PartFactory(**{**given, **values})

    def vehicle(self, label: str, order: int | None = None, **fitted: tuple[str, ...]) -> Vehicle:
        """Make a vehicle with parts fitted at these codes: ``drawhead=("A",)``."""
        vehicle = VehicleFactory(
            label=label, vehicle_class=self.vehicle_class, restoration_order=order
        )
        self.vehicles[label] = vehicle
        for component, codes in fitted.items():
            for code in codes:
                name = component.replace("_", " ")
                position = self.position(name, code)
                FittingFactory(
                    vehicle=vehicle,
                    position=position,
                    part=self.part(name),
                    state=Fitting.State.FITTED,
                )
        return vehicle

    def limits(self, component: str, name: str, **limits) -> None:
        """Say what a characteristic of the component must be on this class."""
        given = {key: value and Decimal(value) for key, value in limits.items()}
        characteristic = CharacteristicFactory(component=self.components[component], name=name)
        SpecificationFactory(
            vehicle_class=self.vehicle_class, characteristic=characteristic, **given
        )

    def add_brass(self) -> None:
        """Let a brass stand in the journal box at L1: its height must suit the opening."""
        brass = self.components["brass"] = ComponentFactory(name="brass")
        PositionFactory(vehicle_class=self.vehicle_class, component=brass, code="L1")
        self.limits("brass", "height", lower_mm="1")
        self.limits("journal box", "opening", lower_mm="1")
        MatingRuleFactory(
            outer=self.components["journal box"].characteristics.get(),
            inner=brass.characteristics.get(),
            greatest_mm="2",
        )

    def measure(self, part: Part, name: str, mm: str, uncertainty: str = "0.05") -> None:
        MeasurementFactory(
            part=part,
            characteristic=part.component.characteristics.get(name=name),
            name=name,
            value_mm=Decimal(mm),
            uncertainty_mm=Decimal(uncertainty),
        )


def lay_out_class() -> Tramway:
    """Make the class with its positions, and nothing in hand."""
    tramway = Tramway(
        VehicleClassFactory(designation="Class E"),
        {name: ComponentFactory(name=name) for name in LAID_OUT},
    )
    for name, (assembly, codes) in LAID_OUT.items():
        for code in codes:
            PositionFactory(
                vehicle_class=tramway.vehicle_class,
                component=tramway.components[name],
                code=code,
                assembly=assembly,
                sequence=Position.objects.count(),
            )
    return tramway


def lay_out_shop() -> Tramway:
    """Make the three wagons with two drawheads, half of a third, two boxes and nine hinges."""
    tramway = lay_out_class()
    tramway.vehicle("Wagon 14", 1, journal_box=("L1",), drawhead=("A",))
    tramway.vehicle("Wagon 22", 2, journal_box=("L1", "R1"))
    tramway.vehicle("Wagon 31", 3)
    tramway.part("drawhead", number="2026.4.1")
    tramway.part("drawhead", number="2026.4.2")
    tramway.part("drawhead", number="2026.4.3", usability="pattern", surviving_share="0.5")
    tramway.part("journal box", number="2026.4.4")
    tramway.part("hinge", number="2026.4.5", quantity=9)
    return tramway


def plan_over(curator: Member, name: str, *labels: str, **values) -> Plan:
    """Make a plan for the vehicles in this order, and work it out."""
    numbers = {Vehicle.objects.get(label=label): place for place, label in enumerate(labels, 1)}
    return work_plan(make_plan({"name": name, "numbers": numbers, **values}, by=curator))
