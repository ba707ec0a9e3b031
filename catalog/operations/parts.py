"""Recording parts and giving them their numbers."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.core.exceptions import ValidationError
from django.db import models, transaction
from django.utils import timezone

from catalog.models import Accession, Member, Move, Part
from catalog.operations.record import change, record_new
from catalog.operations.tags import tag_for
from catalog.reckoning.numbers import AccessionNumber


@transaction.atomic
def record_part(
    values: Mapping[str, Any],
    *,
    by: Member,
    accession: Accession | None = None,
    at: datetime | None = None,
) -> Part:
    """Record a part with ``values`` by the names of its fields; none of them is necessary.

    From an ``accession`` it gets the next item number, which is never given twice, not even
    after the part is withdrawn. A ``location`` among the values is its first move. Refuse a
    tag with a wrong character or on something else, and a quantity that is no whole number.
    """
    when = at or timezone.now()
    told = {
        **values,
        "tag": tag_for(Part(), values.get("tag")),
        "quantity": whole_quantity(values.get("quantity", 1)),
        **number_within(accession or values.get("accession")),
        "recorded_at": when,
        "recorded_by": by,
    }
    part = record_new(Part, told, by=by)
    if part.location is not None:
        move = {"part": part, "to_location": part.location, "moved_at": when, "moved_by": by}
        record_new(Move, move, by=by)
    return part


@transaction.atomic
def change_part(
    part: Part, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> Part:
    """Change what is said of a part; its place is changed by moving it.

    Another ``accession`` gives it the next number there. Refuse a quantity below the pieces
    in use, a tag that is on something else, and a record that has moved on since ``seen``.
    """
    told = dict(values)
    if "quantity" in told:
        told["quantity"] = whole_quantity(told["quantity"])
        _refuse_fewer_than_in_use(part, told["quantity"])
    if "tag" in told:
        told["tag"] = tag_for(part, told["tag"])
    if "accession" in told:
        told |= _number_anew(part, told.pop("accession"))
    if {"location", "inside"} & told.keys():
        raise ValidationError("Move the part, so that it stays known who put it where.")
    return change(part, told, by=by, seen=seen)


def pieces_in_use(part: Part) -> int:
    """Return how many pieces of ``part`` are reserved, on trial or fitted."""
    return part.fittings.active().count()


def _refuse_fewer_than_in_use(part: Part, quantity: int) -> None:
    used = pieces_in_use(part)
    if quantity < used:
        raise ValidationError(
            {"quantity": f"{used} of these are reserved, on trial or fitted; take them off first."}
        )


def _number_anew(part: Part, accession: Accession | None) -> dict[str, Any]:
    if accession == Part.objects.get(pk=part.pk).accession:
        return {}
    if accession is None:
        raise ValidationError({"accession": "A numbered part stays with the donation it came in."})
    return {"piece": "", **number_within(accession)}


def whole_quantity(quantity: Any) -> int:
    """Return a quantity as a whole number of pieces, refusing fractions and nothing."""
    if quantity != int(quantity):
        raise ValidationError(
            {
                "quantity": f"Count whole pieces, not {quantity:g}: half a piece is one piece "
                "of which half survives."
            }
        )
    if quantity < 1:
        raise ValidationError({"quantity": "A part is at least one piece."})
    return int(quantity)


def number_within(accession: Accession | None) -> dict[str, Any]:
    """Return the fields of the next number in ``accession``, held until the transaction ends."""
    if accession is None:
        return {}
    held = hold_accession(accession)
    return {
        "accession": held,
        **number_fields(AccessionNumber(held.year, held.serial, last_item(held) + 1)),
    }


def hold_accession(accession: Accession) -> Accession:
    """Return ``accession`` held until the transaction ends; refuse one that is withdrawn."""
    held = Accession.objects.select_for_update().get(pk=accession.pk)
    if held.is_withdrawn:
        raise ValidationError({"accession": f"Accession {held} is withdrawn."})
    return held


def number_fields(number: AccessionNumber) -> dict[str, Any]:
    """Return ``number`` as the fields in which a part keeps it."""
    return {
        "item": number.item,
        "piece": number.piece,
        "number": str(number),
        "number_sort": number.sort_key,
    }


def last_item(accession: Accession) -> int:
    """Return the highest item number that any part of ``accession`` has or ever had."""
    # The history is asked too: a part that went to another accession leaves its number behind.
    highest = models.Max("item", default=0)
    now = Part.objects.filter(accession=accession).aggregate(last=highest)["last"]
    ever = Part.history.filter(accession=accession).aggregate(last=highest)["last"]
    return max(int(now), int(ever))
