"""What a vehicle class consists of: positions, limits, drawings, its own and those taken over."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db.models import Q

from catalog.models import (
    Characteristic,
    Deviation,
    Position,
    Specification,
    VehicleClass,
)
from catalog.models.positions import PositionQuerySet
from catalog.queries.drawings import Plate, plates_of_class
from catalog.queries.positions import class_lineage, positions_of_class


@dataclass(frozen=True, slots=True)
class ClassPosition:
    """A position of a class, the class that it is taken over from, and how it differs."""

    position: Position
    taken_over_from: str
    differences: tuple[Deviation, ...]


@dataclass(frozen=True, slots=True)
class ClassAssembly:
    """The positions of one assembly of a class, in order."""

    name: str
    rows: tuple[ClassPosition, ...]


@dataclass(frozen=True, slots=True)
class ClassLimits:
    """Limits that hold on a class, where they hold, and the class that they are taken over from."""

    specification: Specification
    place: str
    taken_over_from: str


@dataclass(frozen=True, slots=True)
class ComponentLimits:
    """The limits of one component's characteristics on a class."""

    component: str
    rows: tuple[ClassLimits, ...]


@dataclass(frozen=True, slots=True)
class ClassSheet:
    """Everything that the page of a class shows of its design."""

    assemblies: tuple[ClassAssembly, ...]
    essential: int
    limits: tuple[ComponentLimits, ...]
    plates: tuple[Plate, ...]
    dropped: tuple[Deviation, ...]
    noted: tuple[Deviation, ...]


def class_sheet(vehicle_class: VehicleClass) -> ClassSheet:
    lineage = class_lineage(vehicle_class)
    names = dict(VehicleClass.objects.filter(pk__in=lineage).values_list("pk", "designation"))
    names[vehicle_class.pk] = ""
    positions = positions_of_class(vehicle_class)
    deviations = tuple(
        vehicle_class.deviations.select_related("position__component").prefetch_related(
            "citations__source"
        )
    )
    kind = Deviation.Kind
    return ClassSheet(
        assemblies=_assemblies(positions, names, deviations),
        essential=sum(position.is_essential for position in positions),
        limits=_limits(vehicle_class, lineage, names),
        plates=plates_of_class(lineage, positions),
        dropped=tuple(row for row in deviations if row.kind == kind.DROPPED),
        noted=tuple(row for row in deviations if row.kind == kind.NOTED),
    )


def positions_with_limits(vehicle_class: VehicleClass) -> PositionQuerySet:
    """Return where limits may hold: the class's positions, and those of single vehicles of it."""
    keys = [position.pk for position in positions_of_class(vehicle_class)]
    own = Q(vehicle__in=vehicle_class.vehicles.kept())
    rows = Position.objects.filter(Q(pk__in=keys) | own)
    return rows.select_related("component", "vehicle")


def characteristics_of(vehicle_class: VehicleClass) -> Iterable[Characteristic]:
    """Return what can be measured on the components that such a vehicle has positions for."""
    components = positions_with_limits(vehicle_class).order_by().values("component")
    rows = Characteristic.objects.filter(component__in=components).select_related("component")
    return rows.prefetch_related("component__aliases").order_by("component__name", "sequence")


def limits_taken_over(
    vehicle_class: VehicleClass, characteristic: int, *, position: int | None = None
) -> Specification | None:
    """Return the limits that the class takes over from a base for this, its own left aside."""
    lineage = [key for key in class_lineage(vehicle_class) if key != vehicle_class.pk]
    rows = Specification.objects.filter(
        vehicle_class__in=lineage, characteristic=characteristic, position=position, vehicle=None
    ).select_related("vehicle_class", "characteristic")
    return min(rows, key=lambda row: lineage.index(row.vehicle_class_id), default=None)


def _assemblies(
    positions: Iterable[Position],
    names: Mapping[int, str],
    deviations: Iterable[Deviation],
) -> tuple[ClassAssembly, ...]:
    differing: dict[int | None, list[Deviation]] = {}
    for row in deviations:
        differing.setdefault(row.position_id, []).append(row)
    groups: dict[str, list[ClassPosition]] = {}
    for position in positions:
        told = tuple(differing.get(position.pk, ()))
        origin = names.get(position.vehicle_class_id or 0, "")
        groups.setdefault(position.assembly, []).append(ClassPosition(position, origin, told))
    return tuple(
        ClassAssembly(name or "other positions", tuple(rows)) for name, rows in groups.items()
    )


def _limits(
    vehicle_class: VehicleClass, lineage: list[int], names: Mapping[int, str]
) -> tuple[ComponentLimits, ...]:
    found = (
        Specification.objects.filter(vehicle_class__in=lineage)
        .filter(Q(vehicle__isnull=True) | Q(vehicle__vehicle_class=vehicle_class))
        .select_related("characteristic__component", "position__component", "vehicle")
        .prefetch_related("citations__source")
        .order_by("characteristic__component__name", "characteristic__sequence", "pk")
    )
    # A derived class's own statement stands in the place of its base's.
    nearest: dict[tuple[int, int | None, int | None], Specification] = {}
    for row in found:
        key = (row.characteristic_id, row.position_id, row.vehicle_id)
        former = nearest.get(key)
        if former is None or lineage.index(row.vehicle_class_id) < lineage.index(
            former.vehicle_class_id
        ):
            nearest[key] = row
    groups: dict[str, list[ClassLimits]] = {}
    for row in nearest.values():
        limits = ClassLimits(row, _place(row), names[row.vehicle_class_id])
        groups.setdefault(row.characteristic.component.name, []).append(limits)
    return tuple(ComponentLimits(name, tuple(rows)) for name, rows in groups.items())


def _place(row: Specification) -> str:
    where = f"at {row.position.code}" if row.position else "everywhere"
    return f"{where}, on {row.vehicle} only" if row.vehicle else where
