"""Positions of classes, and of single vehicles that have one more."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, TypedDict, Unpack

from django.core.exceptions import ValidationError
from django.db import models, transaction

from catalog.models import Component, Member, Position, Vehicle, VehicleClass
from catalog.operations.record import change, record_new, remove
from catalog.queries.positions import positions_of


class PositionDetails(TypedDict, total=False):
    """What may be said of a position besides code and component."""

    assembly: str
    is_essential: bool
    sequence: int | None
    note: str


@dataclass(frozen=True, slots=True)
class PositionLine:
    """One position of a list that is typed in one go."""

    code: str
    component: Component
    assembly: str = ""
    is_essential: bool = True


@transaction.atomic
def add_position(
    *,
    code: str,
    component: Component,
    by: Member,
    vehicle_class: VehicleClass | None = None,
    vehicle: Vehicle | None = None,
    **details: Unpack[PositionDetails],
) -> Position:
    """Add a position to every vehicle of a class, or to one vehicle only.

    ``sequence`` left out puts it last. Refuse a code that the component has there already.
    """
    owner = vehicle_class or vehicle
    if owner is None or (vehicle_class and vehicle):
        raise ValidationError("A position belongs to a class or to one vehicle.")
    code = _code(code)
    if vehicle is not None:
        _refuse_from_class(vehicle, code, component)
    told = {**details, "sequence": details.get("sequence") or _next_sequence(owner)}
    values = {"vehicle_class": vehicle_class, "vehicle": vehicle, "component": component}
    return record_new(Position, {**values, "code": code, **told}, by=by)


@transaction.atomic
def add_positions(
    vehicle_class: VehicleClass, lines: Iterable[PositionLine], *, by: Member
) -> list[Position]:
    """Add several positions to a class in one go, all of them or none."""
    return [
        add_position(
            vehicle_class=vehicle_class,
            code=line.code,
            component=line.component,
            assembly=line.assembly,
            is_essential=line.is_essential,
            by=by,
        )
        for line in lines
    ]


@transaction.atomic
def change_position(
    position: Position, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> Position:
    """Change a position; refuse another component once a part has been at it."""
    told = dict(values)
    if "code" in told:
        told["code"] = _code(told["code"])
    if told.get("sequence", 0) is None:
        told["sequence"] = position.sequence
    # The form has set the new values on the object already, so the record itself is asked.
    former = Position.objects.select_related("component").get(pk=position.pk)
    is_other = told.get("component", former.component) != former.component
    if is_other and (used := _use_of(position)):
        raise ValidationError(
            {"component": f"{used}, so it stays a {former.component}. Add a new position."}
        )
    return change(position, told, by=by, seen=seen)


@transaction.atomic
def remove_position(position: Position, *, by: Member) -> None:
    """Remove a position with its limits and spots; refuse once anything happened at it."""
    if used := _use_of(position):
        raise ValidationError(f"{position} stays: {used[0].lower()}{used[1:]}.")
    if deviation := position.deviations.select_related("vehicle", "vehicle_class").first():
        raise ValidationError(
            f"{position} stays: a difference of {deviation.vehicle or deviation.vehicle_class} "
            f"speaks of it ({deviation.reason})."
        )
    for row in [*position.specifications.all(), *position.spots.all(), position]:
        remove(row, by=by, why=f"position removed: {position}")


def _code(text: str) -> str:
    return "".join(text.split()).upper()


def _next_sequence(owner: VehicleClass | Vehicle) -> int:
    rows = owner.positions if isinstance(owner, VehicleClass) else owner.own_positions
    return (rows.aggregate(last=models.Max("sequence"))["last"] or 0) + 1


def _refuse_from_class(vehicle: Vehicle, code: str, component: Component) -> None:
    if any((row.code, row.component) == (code, component) for row in positions_of(vehicle)):
        raise ValidationError({"code": f"{vehicle} already has position {code} {component}."})


def _use_of(position: Position) -> str:
    """Say what happened at a position, or nothing."""
    if fitting := position.fittings.select_related("part", "vehicle").first():
        return f"Part {fitting.part} is or was at it on {fitting.vehicle}"
    if removal := position.removals.select_related("part", "vehicle").first():
        return f"Part {removal.part} was taken off there on {removal.vehicle}"
    # Of a trial that was taken back nothing counts, but photos of it would go with the position.
    counts = models.Q(withdrawn_at__isnull=True) | models.Q(photos__isnull=False)
    if trial := position.trials.filter(counts).select_related("part", "vehicle").first():
        return f"Part {trial.part} was tried there on {trial.vehicle}"
    return ""
