"""What visitors see of a vehicle class: its drawings, positions, and published vehicles."""

from dataclasses import dataclass

from catalog.models import VehicleClass
from catalog.models.vehicles import VehicleQuerySet
from catalog.queries.drawings import Plate
from catalog.queries.party_names import builder_named
from catalog.queries.vehicle_classes import ClassAssembly, class_sheet
from catalog.reckoning.length_texts import format_gauge


@dataclass(frozen=True, slots=True)
class PublicClass:
    """All that a visitor sees of one class."""

    designation: str
    name: str
    cells: tuple[tuple[str, str], ...]
    plates: tuple[Plate, ...]
    assemblies: tuple[ClassAssembly, ...]
    essential: int
    vehicles: VehicleQuerySet


def public_class(kind: VehicleClass) -> PublicClass:
    """Return what a visitor sees of a class; limits are for those who work on the pieces."""
    design = class_sheet(kind)
    return PublicClass(
        designation=kind.designation,
        name=kind.name or kind.designation,
        cells=(
            ("Gauge", format_gauge(kind.gauge_mm) if kind.gauge_mm else kind.gauge_text),
            ("Wheels", kind.wheel_arrangement),
            ("Builder", builder_named(kind, for_visitor=True)),
            ("Built", kind.date_text),
        ),
        plates=tuple(plate for plate in design.plates if plate.drawing.picture.is_published),
        assemblies=design.assemblies,
        essential=design.essential,
        vehicles=kind.vehicles.published().in_restoration_order(),
    )
