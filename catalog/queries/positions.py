"""Which positions a vehicle has, and within which limits: its class, that class's base, its own."""

from collections.abc import Collection, Iterable, Mapping

from django.db.models import Q

from catalog.models import Deviation, Position, Specification, Vehicle, VehicleClass
from catalog.queries.layouts import (
    Dropped,
    Layout,
    Limits,
    Recorded,
    Rows,
    by_class_and_component,
    by_owner,
    class_positions,
    dropped_by_owner,
    layout_from,
    lineage_of,
)


def class_lineage(vehicle_class: VehicleClass) -> list[int]:
    """Return the keys of the class, the class it is based on, and so on to the root."""
    return lineage_of(vehicle_class.pk, _parents())


def class_lineages(vehicles: Iterable[Vehicle]) -> dict[int, list[int]]:
    """Return the lineage of the class of each vehicle by the class's key, in one query."""
    parents = _parents()
    keys = {vehicle.vehicle_class_id for vehicle in vehicles}
    return {key: lineage_of(key, parents) for key in keys}


def positions_of_class(vehicle_class: VehicleClass) -> tuple[Position, ...]:
    parents = _parents()
    lineage = lineage_of(vehicle_class.pk, parents)
    recorded = Recorded(parents, _rows(lineage, ()), _dropped(lineage, ()), {})
    return class_positions(lineage, recorded)


def positions_of(vehicle: Vehicle) -> tuple[Position, ...]:
    """Return the positions that the vehicle has, in order, with their components at hand."""
    return positions_of_vehicles([vehicle])[vehicle.pk]


def positions_of_vehicles(vehicles: Iterable[Vehicle]) -> Mapping[int, tuple[Position, ...]]:
    """Return the positions of each vehicle by its key, in three queries however many there are."""
    return layout_of(vehicles, with_limits=False).positions


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
) -> Layout:
    """Return positions, limits and lineages together, in as many queries as limits alone.

    Without the limits it takes fewer. ``components`` leaves all other positions out.
    """
    vehicles = list(vehicles)
    parents = _parents()
    classes = {vehicle.vehicle_class_id for vehicle in vehicles}
    class_keys = {key for own in classes for key in lineage_of(own, parents)}
    vehicle_keys = [vehicle.pk for vehicle in vehicles]
    dropped = _dropped(class_keys, vehicle_keys)
    rows = _rows(class_keys, vehicle_keys, components)
    limits = _limits(class_keys) if with_limits else {}
    return layout_from(Recorded(parents, rows, dropped, limits), vehicles)


def all_recorded() -> Recorded:
    """Read the positions and limits of every class and vehicle, with no citations at hand."""
    limits = Specification.objects.select_related("characteristic")
    return Recorded(
        _parents(),
        by_owner(Position.objects.select_related("component")),
        dropped_by_owner(Deviation.objects.filter(kind=Deviation.Kind.DROPPED)),
        by_class_and_component(limits),
    )


def _parents() -> dict[int, int | None]:
    return dict(VehicleClass.objects.values_list("pk", "based_on"))


def _rows(
    class_keys: Iterable[int],
    vehicle_keys: Iterable[int],
    components: Collection[int] | None = None,
) -> Rows:
    found = Position.objects.filter(_of(class_keys, vehicle_keys)).select_related("component")
    return by_owner(found if components is None else found.filter(component__in=components))


def _dropped(class_keys: Iterable[int], vehicle_keys: Iterable[int]) -> Dropped:
    kind = Deviation.Kind.DROPPED
    return dropped_by_owner(Deviation.objects.filter(_of(class_keys, vehicle_keys), kind=kind))


def _of(class_keys: Iterable[int], vehicle_keys: Iterable[int]) -> Q:
    return Q(vehicle_class__in=list(class_keys)) | Q(vehicle__in=list(vehicle_keys))


def _limits(class_keys: Iterable[int]) -> Limits:
    rows = Specification.objects.filter(vehicle_class__in=list(class_keys))
    return by_class_and_component(
        rows.select_related("characteristic").prefetch_related("citations__source")
    )
