"""Saying within which limits a characteristic must lie: on a class, at a position, on a vehicle."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any, Unpack

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import Characteristic, Member, Position, Specification, Vehicle, VehicleClass
from catalog.operations.citing import Cited, parted, put_behind
from catalog.operations.record import change, record_new, remove
from catalog.queries.positions import class_lineage


class Limits(Cited, total=False):
    """Limits in mm, as new and when worn, how binding they are, and the source behind them."""

    lower_mm: Decimal | None
    upper_mm: Decimal | None
    worn_lower_mm: Decimal | None
    worn_upper_mm: Decimal | None
    is_required: bool
    note: str


@transaction.atomic
def add_specification(
    *,
    vehicle_class: VehicleClass,
    characteristic: Characteristic,
    by: Member,
    position: Position | None = None,
    vehicle: Vehicle | None = None,
    **limits: Unpack[Limits],
) -> Specification:
    """Say within which limits a characteristic must lie: on a class, at a position, on a vehicle.

    The narrowest statement holds. Limits are in mm: ``lower_mm``, ``upper_mm`` as new,
    ``worn_lower_mm``, ``worn_upper_mm`` when worn. ``source`` with ``locator`` is cited behind
    them. Refuse crossed limits, worn limits tighter than new ones, and a position or a vehicle
    that does not belong there.
    """
    cited, told = parted(limits)
    where = {"vehicle_class": vehicle_class, "position": position, "vehicle": vehicle}
    _refuse_foreign(vehicle_class, characteristic, position, vehicle)
    row = record_new(Specification, {**where, "characteristic": characteristic, **told}, by=by)
    put_behind(row, cited, by=by)
    return row


@transaction.atomic
def change_specification(
    specification: Specification,
    values: Mapping[str, Any],
    *,
    by: Member,
    seen: int | None = None,
) -> Specification:
    """Change limits, or where they hold; a ``source`` given is cited besides those there are."""
    cited, told = parted(values)
    new = {
        name: told.get(name, getattr(specification, name))
        for name in ("vehicle_class", "characteristic", "position", "vehicle")
    }
    _refuse_foreign(*new.values())
    row = change(specification, told, by=by, seen=seen)
    put_behind(row, cited, by=by)
    return row


@transaction.atomic
def remove_specification(specification: Specification, *, by: Member) -> None:
    """Remove limits with the citations behind them."""
    remove(specification, by=by, why=f"limits removed: {specification}")


def _refuse_foreign(
    vehicle_class: VehicleClass,
    characteristic: Characteristic,
    position: Position | None,
    vehicle: Vehicle | None,
) -> None:
    if position is not None and position.component_id != characteristic.component_id:
        raise ValidationError(
            {"position": f"{position} has no {characteristic}: that is of another component."}
        )
    if vehicle is not None and vehicle_class.pk not in class_lineage(vehicle.vehicle_class):
        raise ValidationError({"vehicle": f"{vehicle} is not of {vehicle_class}."})
    if position is None:
        return
    if position.vehicle is not None and position.vehicle != vehicle:
        raise ValidationError({"position": f"{position} is on {position.vehicle} only."})
    family = class_lineage(vehicle_class)
    if position.vehicle_class_id is not None and position.vehicle_class_id not in family:
        raise ValidationError({"position": f"{position} is not a position of {vehicle_class}."})
