"""The instruments of the group: what is measured with, and how far a reading with it is off."""

from collections.abc import Mapping
from typing import Any

from django.db import transaction
from django.db.models import Max

from catalog.models import Instrument, Member
from catalog.operations.record import change, record_new
from catalog.operations.slugs import unique_slug


@transaction.atomic
def record_instrument(values: Mapping[str, Any], *, by: Member) -> Instrument:
    """Record an instrument, which comes after those that are there in every list.

    ``values`` are its ``name``, ``resolution_mm``, ``uncertainty_mm`` and ``note``.
    """
    last = Instrument.objects.aggregate(last=Max("sequence"))["last"] or 0
    made = {"slug": unique_slug(Instrument, values["name"]), "sequence": last + 1}
    return record_new(Instrument, {**values, **made}, by=by)


@transaction.atomic
def change_instrument(
    instrument: Instrument, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> Instrument:
    """Change an instrument; what was read with it keeps the uncertainty that it has."""
    return change(instrument, values, by=by, seen=seen)
