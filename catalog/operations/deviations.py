"""Saying how a vehicle differs from its class, or a class from the one it is based on."""

from collections.abc import Mapping
from typing import Any, TypedDict, Unpack

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import Deviation, Member, Position, Vehicle, VehicleClass
from catalog.operations.record import change, record_new, remove
from catalog.queries.positions import positions_of, positions_of_class

Kind = Deviation.Kind


class DeviationDetails(TypedDict, total=False):
    """What may be said of a difference besides its kind and reason."""

    position: Position | None
    since: str


@transaction.atomic
def record_deviation(
    *,
    kind: str,
    reason: str,
    by: Member,
    vehicle: Vehicle | None = None,
    vehicle_class: VehicleClass | None = None,
    **details: Unpack[DeviationDetails],
) -> Deviation:
    """Record how one vehicle differs from its class, or a class from its base.

    ``kind`` is ``"added"``, ``"dropped"``, ``"respecified"`` or ``"noted"``; all but the last
    name a ``position``. Refuse dropping a position that is not taken over, or that a part is at.
    """
    position = details.get("position")
    _refuse_unreasoned(kind, reason, position)
    if vehicle is not None:
        _refuse_on_vehicle(vehicle, kind, position)
    elif vehicle_class is not None:
        _refuse_on_class(vehicle_class, kind, position)
    else:
        raise ValidationError("A difference is one of a vehicle or of a class.")
    owner = {"vehicle": vehicle, "vehicle_class": vehicle_class}
    told = {"kind": kind, "reason": reason.strip(), **details}
    return record_new(Deviation, {**owner, **told}, by=by, why=f"differs: {reason.strip()}")


@transaction.atomic
def change_deviation(
    deviation: Deviation, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> Deviation:
    """Change the reason for a difference, or since when it is there."""
    told = {name: value for name, value in values.items() if name in ("reason", "since")}
    _refuse_unreasoned(deviation.kind, told.get("reason", deviation.reason), deviation.position)
    return change(deviation, told, by=by, seen=seen)


@transaction.atomic
def remove_deviation(deviation: Deviation, *, by: Member) -> None:
    """Take a difference back: the position holds again as the class has it."""
    remove(deviation, by=by, why=f"no longer differs: {deviation.reason}")


def _refuse_unreasoned(kind: str, reason: str, position: Position | None) -> None:
    if not reason.strip():
        raise ValidationError({"reason": "Say why, or how it is known."})
    if kind != Kind.NOTED and position is None:
        raise ValidationError({"position": "Say which position differs."})


def _refuse_on_vehicle(vehicle: Vehicle, kind: str, position: Position | None) -> None:
    if position is None:
        return
    if kind == Kind.ADDED:
        if position.vehicle_id != vehicle.pk:
            raise ValidationError({"position": f"{position} is not a position of {vehicle} only."})
        return
    if position not in positions_of(vehicle):
        raise ValidationError({"position": f"{vehicle} has no position {position}."})
    fitting = position.fittings.active().filter(vehicle=vehicle).select_related("part").first()
    if kind == Kind.DROPPED and fitting is not None:
        raise ValidationError(
            {"position": f"Part {fitting.part} is {fitting.get_state_display()} there."}
        )


def _refuse_on_class(vehicle_class: VehicleClass, kind: str, position: Position | None) -> None:
    if position is None:
        return
    if kind == Kind.ADDED:
        if position.vehicle_class_id != vehicle_class.pk:
            raise ValidationError({"position": f"{position} was not added by {vehicle_class}."})
        return
    if position not in positions_of_class(vehicle_class):
        raise ValidationError({"position": f"{vehicle_class} has no position {position}."})
    if kind != Kind.DROPPED:
        return
    if position.vehicle_class_id == vehicle_class.pk:
        raise ValidationError(
            {"position": f"{position} is its own; remove the position itself instead."}
        )
    vehicles = vehicle_class.vehicles.all()
    fitting = position.fittings.active().filter(vehicle__in=vehicles).first()
    if fitting is not None:
        raise ValidationError(
            {"position": f"Part {fitting.part} is at it on {fitting.vehicle}. Take it off first."}
        )
