"""Recording vehicles, changing them, and the order in which the group restores them."""

from collections.abc import Iterable, Mapping
from typing import Any, TypedDict, Unpack

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import Deviation, Member, Position, Source, Vehicle
from catalog.operations.citing import Cited, put_behind
from catalog.operations.dates import with_date_read
from catalog.operations.deviations import record_deviation
from catalog.operations.positions import add_position
from catalog.operations.record import change, record_new
from catalog.operations.slugs import unique_slug


@transaction.atomic
def record_vehicle(values: Mapping[str, Any], *, by: Member) -> Vehicle:
    """Record a vehicle; only ``label`` and ``vehicle_class`` are needed.

    ``date_text`` (when it was built) may come in words alone. Refuse a label that another
    vehicle has, and a running number that another of its class has.
    """
    read = _read(values)
    _refuse_known(read)
    return record_new(Vehicle, {**read, "slug": unique_slug(Vehicle, read["label"])}, by=by)


@transaction.atomic
def change_vehicle(
    vehicle: Vehicle, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> Vehicle:
    """Change a vehicle; its address stays when the label changes.

    Refuse another class once parts have been at positions of the present one, since those
    positions are the class's.
    """
    read = _read(values)
    _refuse_known(read, besides=vehicle)
    # The form has set the new class on the object already, so the record itself is asked.
    former = Vehicle.objects.select_related("vehicle_class").get(pk=vehicle.pk)
    if read.get("vehicle_class", former.vehicle_class) != former.vehicle_class:
        _refuse_in_use(former)
    return change(vehicle, read, by=by, seen=seen)


@transaction.atomic
def set_restoration_order(vehicles_in_order: Iterable[Vehicle], *, by: Member) -> None:
    """Set the order to the vehicles given, numbered from 1; all others lose their place."""
    wanted = {vehicle.pk: place for place, vehicle in enumerate(vehicles_in_order, start=1)}
    for vehicle in Vehicle.objects.select_for_update():
        place = wanted.get(vehicle.pk)
        if vehicle.restoration_order != place:
            why = f"number {place} in the order" if place else "no longer in the order"
            change(vehicle, {"restoration_order": place}, by=by, why=why)


@transaction.atomic
def move_in_restoration_order(vehicle: Vehicle, places: int, *, by: Member) -> None:
    """Move ``vehicle`` so many places down the order, or up if below zero, and renumber.

    A vehicle without a place enters at the end. Beyond either end it stops there.
    """
    ordered = list(Vehicle.objects.kept().filter(restoration_order__isnull=False))
    if vehicle in ordered:
        start = ordered.index(vehicle)
        ordered.remove(vehicle)
        ordered.insert(max(0, start + places), vehicle)
    else:
        ordered.append(vehicle)
    set_restoration_order(ordered, by=by)


@transaction.atomic
def leave_restoration_order(vehicle: Vehicle, *, by: Member) -> None:
    """Take ``vehicle`` out of the order; those after it move up."""
    ordered = Vehicle.objects.kept().filter(restoration_order__isnull=False)
    set_restoration_order(ordered.exclude(pk=vehicle.pk), by=by)


def _read(values: Mapping[str, Any]) -> dict[str, Any]:
    read = with_date_read(values)
    if "label" in read:
        read["label"] = " ".join(str(read["label"]).split())
    return read


def _refuse_known(read: Mapping[str, Any], besides: Vehicle | None = None) -> None:
    others = Vehicle.objects.filter(label__iexact=read.get("label", ""))
    known = others.exclude(pk=besides.pk).first() if besides else others.first()
    if known is None:
        return
    if known.is_withdrawn:
        told = f"{known} was withdrawn. Bring it back from its history."
    else:
        told = f"There is already a vehicle known as {known}."
    raise ValidationError({"label": told})


def _refuse_in_use(vehicle: Vehicle) -> None:
    if vehicle.fittings.exists() or vehicle.removals.exists():
        raise ValidationError(
            {
                "vehicle_class": f"Parts are or were at positions of {vehicle.vehicle_class} on "
                f"{vehicle}, so its class stays."
            }
        )


class Difference(TypedDict, total=False):
    """What is said of a difference: at which position, why, since when, and by which source."""

    position: Position | None
    since: str
    source: Source | None
    locator: str


@transaction.atomic
def record_difference(
    vehicle: Vehicle, *, kind: str, reason: str, by: Member, **told: Unpack[Difference]
) -> Deviation:
    """Record how ``vehicle`` differs from its class, with the source behind it where given."""
    cited: Cited = {"source": told.pop("source", None), "locator": told.pop("locator", "")}
    deviation = record_deviation(
        vehicle=vehicle,
        kind=kind,
        reason=reason,
        position=told.get("position"),
        since=told.get("since", ""),
        by=by,
    )
    put_behind(deviation, cited, by=by)
    return deviation


@transaction.atomic
def add_own_position(
    vehicle: Vehicle, *, reason: str, since: str = "", by: Member, **position: Any
) -> Position:
    """Add a position that ``vehicle`` has besides those of its class, and say why it has it.

    ``position`` is as for ``add_position``.
    """
    added = add_position(vehicle=vehicle, by=by, **position)
    record_deviation(
        vehicle=vehicle,
        kind=Deviation.Kind.ADDED,
        reason=reason,
        position=added,
        since=since,
        by=by,
    )
    return added
