"""Components, classes with their positions and limits, and vehicles of a generated collection."""

from dataclasses import dataclass
from decimal import Decimal
from random import Random

from catalog.models import (
    Characteristic,
    Component,
    ComponentAlias,
    Drawing,
    Location,
    MatingRule,
    Member,
    Party,
    Photo,
    Position,
    PositionSpot,
    ProvenanceEvent,
    Specification,
    Vehicle,
    VehicleClass,
)
from tests.factories.moments import LONG_AGO

KINDS = ("journal box", "bearing brass", "drawhead", "hinge", "latch", "spring", "hanger", "strap")
ASSEMBLIES = ("running gear", "brake", "frame", "body", "drawgear")
POSITIONS = 40
# How far a dimension may lie from its nominal value on a vehicle, in mm.
TOLERANCE = Decimal("0.8")
# Every so many components, one must go over the next with some clearance.
MATING_EVERY = 10


@dataclass(frozen=True, slots=True)
class Kinds:
    """What parts can be, what they are measured by, and where they can stand or go."""

    components: list[Component]
    characteristics: dict[int, Characteristic]
    classes: list[VehicleClass]
    positions: dict[int, list[Position]]
    vehicles: list[Vehicle]
    locations: list[Location]


def make_kinds(*, components: int, classes: int, vehicles: int, by: Member) -> Kinds:
    random = Random(1889)
    kinds = _components(components)
    characteristics = _characteristics(kinds)
    of_class = _classes(classes)
    positions = _positions(of_class, kinds)
    _limits(positions, characteristics)
    _drawings(positions, by)
    locations = _locations()
    made = [_vehicle(n, of_class[n % classes], random.choice(locations)) for n in range(vehicles)]
    _tell(Vehicle.objects.bulk_create(made), by)
    return Kinds(kinds, characteristics, of_class, positions, made, locations)


def nominal(component: Component) -> Decimal:
    return Decimal(20 + component.pk % 97)


def _components(count: int) -> list[Component]:
    kinds = Component.objects.bulk_create(
        Component(name=f"{KINDS[n % len(KINDS)]} {n}", slug=f"component-{n}") for n in range(count)
    )
    ComponentAlias.objects.bulk_create(
        ComponentAlias(component=kind, name=f"works name {kind.pk}") for kind in kinds
    )
    return kinds


def _characteristics(kinds: list[Component]) -> dict[int, Characteristic]:
    made = Characteristic.objects.bulk_create(
        Characteristic(component=kind, name="bore") for kind in kinds
    )
    pairs = zip(made[::MATING_EVERY], made[1::MATING_EVERY], strict=True)
    MatingRule.objects.bulk_create(
        MatingRule(outer=outer, inner=inner, least_mm=Decimal(-3)) for outer, inner in pairs
    )
    return {one.component_id: one for one in made}


def _classes(count: int) -> list[VehicleClass]:
    return VehicleClass.objects.bulk_create(
        VehicleClass(designation=f"Class {n}", slug=f"class-{n}") for n in range(count)
    )


def _positions(classes: list[VehicleClass], kinds: list[Component]) -> dict[int, list[Position]]:
    made = Position.objects.bulk_create(
        Position(
            vehicle_class=one,
            code=f"L{n // 2 + 1}",
            component=kinds[(number * 13 + n) % len(kinds)],
            assembly=ASSEMBLIES[n * len(ASSEMBLIES) // POSITIONS],
            is_essential=n % 4 != 3,
            sequence=n,
        )
        for number, one in enumerate(classes)
        for n in range(POSITIONS)
    )
    return {
        one.pk: made[start : start + POSITIONS]
        for one, start in zip(classes, range(0, len(made), POSITIONS), strict=True)
    }


def _limits(
    positions: dict[int, list[Position]], characteristics: dict[int, Characteristic]
) -> None:
    Specification.objects.bulk_create(
        Specification(
            vehicle_class_id=key,
            characteristic=characteristics[position.component_id],
            lower_mm=nominal(position.component) - TOLERANCE,
            upper_mm=nominal(position.component) + TOLERANCE,
        )
        for key, own in positions.items()
        for position in own
    )


def _drawings(positions: dict[int, list[Position]], by: Member) -> None:
    for key, own in positions.items():
        picture = Photo.objects.create(**photo_fields(f"class {key}", by), vehicle_class_id=key)
        drawing = Drawing.objects.create(vehicle_class_id=key, title="Side", picture=picture)
        PositionSpot.objects.bulk_create(
            PositionSpot(position=one, drawing=drawing, x=one.sequence / POSITIONS, y=0.5)
            for one in own
        )


def _locations() -> list[Location]:
    shed = Location.objects.create(name="Shed", path="Shed", kind="building", lineage="/1/")
    shelves = Location.objects.bulk_create(
        Location(name=f"Shelf {n}", path=f"Shed › Shelf {n}", kind="shelf", parent=shed)
        for n in range(300)
    )
    for shelf in shelves:
        shelf.lineage = f"{shed.lineage}{shelf.pk}/"
    Location.objects.bulk_update(shelves, ["lineage"])
    return shelves


def _vehicle(number: int, vehicle_class: VehicleClass, home: Location) -> Vehicle:
    return Vehicle(
        label=f"Wagon {number}",
        slug=f"wagon-{number}",
        running_number=str(number),
        vehicle_class=vehicle_class,
        restoration_order=number + 1,
        home_location=home,
        story="Built for slate, used for coal, found in a hedge.",
    )


def _tell(vehicles: list[Vehicle], by: Member) -> None:
    """Give each vehicle three photos and three events of its life."""
    Photo.objects.bulk_create(
        Photo(**photo_fields(f"{one} {turn}", by), vehicle=one, is_main=turn == 0)
        for one in vehicles
        for turn in range(3)
    )
    party = Party.objects.create(name="A coal merchant", sort_name="coal merchant")
    ProvenanceEvent.objects.bulk_create(
        ProvenanceEvent(vehicle=one, kind=kind, to_party=party, sequence=turn)
        for one in vehicles
        for turn, kind in enumerate(("built", "sold", "acquired"))
    )


def photo_fields(name: str, by: Member) -> dict[str, object]:
    return {
        "original": "originals/none.jpg",
        "sha256": name.replace(" ", "-"),
        "media_type": "image/jpeg",
        "byte_size": 1000,
        "width": 1600,
        "height": 1200,
        "added_at": LONG_AGO,
        "added_by": by,
    }
