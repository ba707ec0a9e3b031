"""How positions and limits of classes come together on a vehicle, from rows read already."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from catalog.models import Deviation, Position, Specification, Vehicle

Dropped = dict[tuple[str, int | None], dict[int, Deviation]]
Rows = dict[tuple[str, int | None], list[Position]]
# By the key of the class that states them, and of the component that they are about.
Limits = dict[tuple[int, int], list[Specification]]


@dataclass(frozen=True, slots=True)
class Recorded:
    """What layouts are made from: each class's base, and rows by the class or vehicle of each."""

    parents: Mapping[int, int | None]
    rows: Rows
    dropped: Dropped
    limits: Limits


@dataclass(frozen=True, slots=True)
class Layout:
    """The positions of each vehicle by its key, the limits at each, and each class's lineage."""

    positions: Mapping[int, tuple[Position, ...]]
    limits: Mapping[int, Mapping[int, tuple[Specification, ...]]]
    lineages: Mapping[int, list[int]]


def layout_from(recorded: Recorded, vehicles: Iterable[Vehicle]) -> Layout:
    """Return the layout of the vehicles; of several limits the narrowest statement holds."""
    vehicles = list(vehicles)
    lineages = lineages_from(recorded, vehicles)
    positions = positions_from(recorded, vehicles)
    limits = {
        vehicle.pk: {
            position.pk: narrowest(vehicle, position, recorded)
            for position in positions[vehicle.pk]
        }
        for vehicle in vehicles
    }
    return Layout(positions, limits, lineages)


def lineages_from(recorded: Recorded, vehicles: Iterable[Vehicle]) -> dict[int, list[int]]:
    """Return the lineage of the class of each vehicle by the class's key."""
    keys = {vehicle.vehicle_class_id for vehicle in vehicles}
    return {key: lineage_of(key, recorded.parents) for key in keys}


def positions_from(
    recorded: Recorded, vehicles: Iterable[Vehicle]
) -> dict[int, tuple[Position, ...]]:
    """Return the positions of each vehicle by its key, in order."""
    vehicles = list(vehicles)
    of_class = {
        key: class_positions(lineage, recorded)
        for key, lineage in lineages_from(recorded, vehicles).items()
    }
    return {
        vehicle.pk: _own(vehicle, of_class[vehicle.vehicle_class_id], recorded)
        for vehicle in vehicles
    }


def lineage_of(key: int | None, parents: Mapping[int, int | None]) -> list[int]:
    """Return a class's key, that of the class it is based on, and so on to the root."""
    lineage: list[int] = []
    while key is not None and key not in lineage:
        lineage.append(key)
        key = parents.get(key)
    return lineage


def class_positions(lineage: list[int], recorded: Recorded) -> tuple[Position, ...]:
    """Return the positions of a class in order; its own stand in for those it takes over."""
    kept: dict[tuple[str, int], Position] = {}
    left_out: dict[int, Deviation] = {}
    for key in reversed(lineage):
        left_out |= recorded.dropped.get(("class", key), {})
        for position in recorded.rows.get(("class", key), []):
            kept[position.code, position.component_id] = position
    positions = [position for position in kept.values() if position.pk not in left_out]
    return tuple(sorted(positions, key=_in_order))


def by_owner(positions: Iterable[Position]) -> Rows:
    rows: Rows = {}
    for position in positions:
        rows.setdefault(_owner(position), []).append(position)
    return rows


def dropped_by_owner(deviations: Iterable[Deviation]) -> Dropped:
    dropped: Dropped = {}
    for deviation in deviations:
        if deviation.position_id is not None:
            dropped.setdefault(_owner(deviation), {})[deviation.position_id] = deviation
    return dropped


def by_class_and_component(specifications: Iterable[Specification]) -> Limits:
    limits: Limits = {}
    for row in specifications:
        key = (row.vehicle_class_id, row.characteristic.component_id)
        limits.setdefault(key, []).append(row)
    return limits


def _owner(row: Position | Deviation) -> tuple[str, int | None]:
    if row.vehicle_id is not None:
        return ("vehicle", row.vehicle_id)
    return ("class", row.vehicle_class_id)


def _own(
    vehicle: Vehicle, of_class: tuple[Position, ...], recorded: Recorded
) -> tuple[Position, ...]:
    added = recorded.rows.get(("vehicle", vehicle.pk), [])
    left_out = recorded.dropped.get(("vehicle", vehicle.pk), {})
    if not added and not left_out:
        return of_class
    kept = [position for position in of_class if position.pk not in left_out]
    return tuple(sorted([*kept, *added], key=_in_order))


def _in_order(position: Position) -> tuple[int, str, int]:
    return (position.sequence, position.code, position.pk)


def narrowest(
    vehicle: Vehicle, position: Position, recorded: Recorded
) -> tuple[Specification, ...]:
    """Return the limits at a position of a vehicle: of several, the narrowest statement."""
    lineage = lineage_of(vehicle.vehicle_class_id, recorded.parents)
    best: dict[int, tuple[tuple[bool, bool, int], Specification]] = {}
    for farness, row in _stated(position, lineage, recorded.limits):
        if row.vehicle_id in (None, vehicle.pk) and row.position_id in (None, position.pk):
            rank = (row.vehicle_id is not None, row.position_id is not None, -farness)
            if row.characteristic_id not in best or rank > best[row.characteristic_id][0]:
                best[row.characteristic_id] = (rank, row)
    ordered = sorted(
        (row for _, row in best.values()),
        key=lambda row: (row.characteristic.sequence, row.characteristic.name),
    )
    return tuple(ordered)


def _stated(
    position: Position, lineage: list[int], limits: Limits
) -> Iterator[tuple[int, Specification]]:
    for farness, key in enumerate(lineage):
        for row in limits.get((key, position.component_id), ()):
            yield farness, row
