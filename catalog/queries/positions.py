"""Which positions a vehicle has, and within which limits: its class, that class's base, its own."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from django.db.models import Q

from catalog.models import Deviation, Position, Specification, Vehicle, VehicleClass


@dataclass(frozen=True, slots=True)
class ClassPositions:
    """The positions of one class, in order, with what it leaves out of the class it is based on."""

    positions: tuple[Position, ...]
    dropped: Mapping[int, Deviation]


@dataclass(frozen=True, slots=True)
class Layout:
    """The positions of each vehicle by its key, the limits at each, and each class's lineage."""

    positions: Mapping[int, tuple[Position, ...]]
    limits: Mapping[int, Mapping[int, tuple[Specification, ...]]]
    lineages: Mapping[int, list[int]]


def class_lineage(vehicle_class: VehicleClass) -> list[int]:
    """Return the keys of the class, the class it is based on, and so on to the root."""
    return _lineage(vehicle_class.pk, _parents())


def class_lineages(vehicles: Iterable[Vehicle]) -> dict[int, list[int]]:
    """Return the lineage of the class of each vehicle by the class's key, in one query."""
    parents = _parents()
    keys = {vehicle.vehicle_class_id for vehicle in vehicles}
    return {key: _lineage(key, parents) for key in keys}


def positions_of_class(vehicle_class: VehicleClass) -> tuple[Position, ...]:
    lineage = class_lineage(vehicle_class)
    return _class_positions(lineage, _rows(lineage, ()), _dropped(lineage, ())).positions


def positions_of(vehicle: Vehicle) -> tuple[Position, ...]:
    """Return the positions that the vehicle has, in order, with their components at hand."""
    return positions_of_vehicles([vehicle])[vehicle.pk]


def positions_of_vehicles(vehicles: Iterable[Vehicle]) -> dict[int, tuple[Position, ...]]:
    """Return the positions of each vehicle by its key, in three queries however many there are."""
    vehicles = list(vehicles)
    return _positions(vehicles, class_lineages(vehicles))


def limits_of(vehicle: Vehicle) -> Mapping[int, tuple[Specification, ...]]:
    """Return the limits that hold at each position of the vehicle, by position key."""
    return limits_of_vehicles([vehicle])[vehicle.pk]


def limits_of_vehicles(
    vehicles: Iterable[Vehicle],
) -> Mapping[int, Mapping[int, tuple[Specification, ...]]]:
    """Return the limits at each position of each vehicle; the narrowest statement holds."""
    return layout_of(vehicles).limits


def layout_of(
    vehicles: Iterable[Vehicle],
    *,
    components: Collection[int] | None = None,
    with_limits: bool = True,
    with_sources: bool = True,
) -> Layout:
    """Return positions, limits and lineages together, in as many queries as limits alone.

    Without the limits, or without the sources that state them, it takes fewer. ``components``
    leaves all other positions out.
    """
    vehicles = list(vehicles)
    lineages = class_lineages(vehicles)
    positions = _positions(vehicles, lineages, components)
    if not with_limits:
        return Layout(positions, {}, lineages)
    specifications = _specifications(lineages, with_sources=with_sources)
    limits = {
        vehicle.pk: {
            position.pk: _narrowest(
                vehicle, position, lineages[vehicle.vehicle_class_id], specifications
            )
            for position in positions[vehicle.pk]
        }
        for vehicle in vehicles
    }
    return Layout(positions, limits, lineages)


def _positions(
    vehicles: list[Vehicle],
    lineages: Mapping[int, list[int]],
    components: Collection[int] | None = None,
) -> dict[int, tuple[Position, ...]]:
    class_keys = {key for lineage in lineages.values() for key in lineage}
    vehicle_keys = [vehicle.pk for vehicle in vehicles]
    dropped = _dropped(class_keys, vehicle_keys)
    rows = _rows(class_keys, vehicle_keys, components)
    of_class = {
        key: _class_positions(lineage, rows, dropped).positions for key, lineage in lineages.items()
    }
    return {
        vehicle.pk: _own(vehicle, of_class[vehicle.vehicle_class_id], rows, dropped)
        for vehicle in vehicles
    }


Dropped = dict[tuple[str, int | None], dict[int, Deviation]]
Rows = dict[tuple[str, int | None], list[Position]]
ByCharacteristic = dict[int, list[Specification]]


def _parents() -> dict[int, int | None]:
    return dict(VehicleClass.objects.values_list("pk", "based_on"))


def _lineage(key: int | None, parents: Mapping[int, int | None]) -> list[int]:
    lineage: list[int] = []
    while key is not None and key not in lineage:
        lineage.append(key)
        key = parents.get(key)
    return lineage


def _rows(
    class_keys: Iterable[int],
    vehicle_keys: Iterable[int],
    components: Collection[int] | None = None,
) -> Rows:
    found = Position.objects.filter(
        Q(vehicle_class__in=list(class_keys)) | Q(vehicle__in=list(vehicle_keys))
    ).select_related("component")
    if components is not None:
        found = found.filter(component__in=components)
    rows: Rows = {}
    for position in found:
        rows.setdefault(_owner(position), []).append(position)
    return rows


def _dropped(class_keys: Iterable[int], vehicle_keys: Iterable[int]) -> Dropped:
    found = Deviation.objects.filter(
        Q(vehicle_class__in=list(class_keys)) | Q(vehicle__in=list(vehicle_keys)),
        kind=Deviation.Kind.DROPPED,
    )
    dropped: Dropped = {}
    for deviation in found:
        position_key = deviation.position_id
        if position_key is not None:
            dropped.setdefault(_owner(deviation), {})[position_key] = deviation
    return dropped


def _owner(row: Position | Deviation) -> tuple[str, int | None]:
    if row.vehicle_id is not None:
        return ("vehicle", row.vehicle_id)
    return ("class", row.vehicle_class_id)


def _class_positions(lineage: list[int], rows: Rows, dropped: Dropped) -> ClassPositions:
    kept: dict[tuple[str, int], Position] = {}
    left_out: dict[int, Deviation] = {}
    for key in reversed(lineage):
        left_out |= dropped.get(("class", key), {})
        for position in rows.get(("class", key), []):
            kept[position.code, position.component_id] = position
    positions = [position for position in kept.values() if position.pk not in left_out]
    return ClassPositions(tuple(sorted(positions, key=_in_order)), left_out)


def _own(
    vehicle: Vehicle, of_class: tuple[Position, ...], rows: Rows, dropped: Dropped
) -> tuple[Position, ...]:
    added = rows.get(("vehicle", vehicle.pk), [])
    left_out = dropped.get(("vehicle", vehicle.pk), {})
    if not added and not left_out:
        return of_class
    kept = [position for position in of_class if position.pk not in left_out]
    return tuple(sorted([*kept, *added], key=_in_order))


def _in_order(position: Position) -> tuple[int, str, int]:
    return (position.sequence, position.code, position.pk)


def _specifications(lineages: Mapping[int, list[int]], *, with_sources: bool) -> ByCharacteristic:
    keys = {key for lineage in lineages.values() for key in lineage}
    found: ByCharacteristic = {}
    rows = Specification.objects.filter(vehicle_class__in=keys).select_related("characteristic")
    for row in rows.prefetch_related("citations__source") if with_sources else rows:
        found.setdefault(row.characteristic.component_id, []).append(row)
    return found


def _narrowest(
    vehicle: Vehicle, position: Position, lineage: list[int], found: ByCharacteristic
) -> tuple[Specification, ...]:
    best: dict[int, tuple[tuple[bool, bool, int], Specification]] = {}
    for row in found.get(position.component_id, []):
        if not _holds(row, vehicle, position, lineage):
            continue
        rank = (
            row.vehicle_id is not None,
            row.position_id is not None,
            -lineage.index(row.vehicle_class_id),
        )
        if row.characteristic_id not in best or rank > best[row.characteristic_id][0]:
            best[row.characteristic_id] = (rank, row)
    ordered = sorted(
        (row for _, row in best.values()),
        key=lambda row: (row.characteristic.sequence, row.characteristic.name),
    )
    return tuple(ordered)


def _holds(row: Specification, vehicle: Vehicle, position: Position, lineage: list[int]) -> bool:
    return (
        row.vehicle_class_id in lineage
        and row.vehicle_id in (None, vehicle.pk)
        and row.position_id in (None, position.pk)
    )
