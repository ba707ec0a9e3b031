"""Recording vehicle classes."""

from collections.abc import Mapping
from contextlib import suppress
from decimal import Decimal
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import Member, VehicleClass
from catalog.operations.dates import with_date_read
from catalog.operations.record import change, record_new
from catalog.operations.slugs import unique_slug
from catalog.reckoning.length_texts import rounded
from catalog.reckoning.lengths import LengthError, parse_length
from catalog.reckoning.notation import NotationError, gauge_named


@transaction.atomic
def record_vehicle_class(values: Mapping[str, Any], *, by: Member) -> VehicleClass:
    """Record a class; only ``designation`` is needed.

    ``gauge_text`` and ``date_text`` (when they were built) may come in words alone: their
    columns are read from them. Refuse a designation that another class has.
    """
    read = _read(values)
    _refuse_known(read)
    slug = unique_slug(VehicleClass, read["designation"])
    return record_new(VehicleClass, {**read, "slug": slug}, by=by)


@transaction.atomic
def change_vehicle_class(
    vehicle_class: VehicleClass,
    values: Mapping[str, Any],
    *,
    by: Member,
    seen: int | None = None,
) -> VehicleClass:
    """Change a class; its address stays when the designation changes.

    Refuse a loop of classes based on one another, and a record that has moved on since ``seen``.
    """
    # Two people could otherwise close a loop from both ends at the same moment.
    list(VehicleClass.objects.select_for_update().values_list("pk"))
    read = _read(values)
    _refuse_known(read, besides=vehicle_class)
    return change(vehicle_class, read, by=by, seen=seen)


def _read(values: Mapping[str, Any]) -> dict[str, Any]:
    read = with_date_read(values)
    if "designation" in read:
        read["designation"] = " ".join(str(read["designation"]).split())
    if "gauge_text" in read and "gauge_mm" not in read:
        read["gauge_mm"] = _gauge_mm(str(read["gauge_text"]).strip())
    return read


def _gauge_mm(text: str) -> Decimal | None:
    """Read a gauge given as a length or by its name, such as meter gauge."""
    if not text:
        return None
    with suppress(NotationError):
        return rounded(gauge_named(text).mm, 9)
    try:
        return rounded(parse_length(text).mm, 9)
    except LengthError as problem:
        raise ValidationError({"gauge_text": str(problem)}) from problem


def _refuse_known(read: Mapping[str, Any], besides: VehicleClass | None = None) -> None:
    if "designation" not in read:
        return
    others = VehicleClass.objects.filter(designation__iexact=read["designation"])
    known = others.exclude(pk=besides.pk).first() if besides else others.first()
    if known is None:
        return
    if known.is_withdrawn:
        told = f"{known} was withdrawn. Bring it back from its history."
    else:
        told = f"There is already a class called {known}."
    raise ValidationError({"designation": told})
