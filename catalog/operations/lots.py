"""Splitting pieces off a counted lot under numbers of their own."""

from datetime import datetime
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalog.models import Citation, Identification, Member, Opinion, Part
from catalog.operations.parts import pieces_in_use, whole_quantity
from catalog.operations.record import change, record_new
from catalog.operations.tags import tag_for
from catalog.reckoning.numbers import AccessionNumber, next_piece

# What a piece has in common with the lot it is split from, until somebody looks closer.
SHARED = (
    "accession",
    "item",
    "description",
    "surviving_share",
    "castings_left",
    "usability",
    "defect",
    "material",
    "condition",
    "keep_with",
    "location",
    "inside",
    "component",
    "vehicle_class",
    "identification_status",
    "is_published",
)


@transaction.atomic
def split_part(
    lot: Part, quantity: Any, *, by: Member, at: datetime | None = None, **values: Any
) -> Part:
    """Split ``quantity`` pieces off a lot, under the next letter after the lot's number.

    The piece keeps the accession, the place, the hazards and what the lot is identified as,
    with everybody's opinions; ``values`` say what is different about it. Marks, measurements
    and photos stay with the lot. Refuse nothing and parts of pieces, the whole lot, and more
    than the pieces that are not in use.
    """
    held = Part.objects.select_for_update().get(pk=lot.pk)
    count = whole_quantity(quantity)
    _refuse_split(held, count)
    lot.quantity = held.quantity - count
    told = {
        **{name: getattr(held, name) for name in SHARED},
        "hazards": list(held.hazards.all()),
        **values,
        **_number_after(held),
        "tag": tag_for(Part(), values.get("tag")),
        "quantity": count,
        "split_from": held,
        "recorded_at": at or timezone.now(),
        "recorded_by": by,
    }
    piece = record_new(Part, told, by=by, why=f"split from {held}")
    _copy_identifications(held, piece, by=by)
    change(held, {"quantity": lot.quantity}, by=by, why=f"{count} split off as {piece}")
    return piece


def _refuse_split(lot: Part, count: int) -> None:
    free = lot.quantity - pieces_in_use(lot)
    if lot.is_withdrawn:
        raise ValidationError("This part is withdrawn; bring it back first.")
    if count >= lot.quantity:
        raise ValidationError(
            {
                "quantity": f"There are {lot.quantity} pieces under {lot}: at least one stays "
                "there, and the others can be split off."
                if lot.quantity > 1
                else f"{lot} is a single piece; there is nothing to split off."
            }
        )
    if count > free:
        raise ValidationError(
            {"quantity": f"Only {free} of these are free; the others are in use on vehicles."}
        )


def _number_after(lot: Part) -> dict[str, Any]:
    if lot.accession is None or lot.item is None:
        return {}
    pieces = Part.objects.filter(accession=lot.accession, item=lot.item).values_list(
        "piece", flat=True
    )
    last = max(pieces, key=lambda piece: (len(piece), piece))
    piece = next_piece(last)
    number = AccessionNumber(lot.accession.year, lot.accession.serial, lot.item, piece)
    return {"piece": piece, "number": str(number), "number_sort": number.sort_key}


def _copy_identifications(lot: Part, piece: Part, *, by: Member) -> None:
    why = f"as {lot} was identified"
    for row in lot.identifications.standing():
        copy = record_new(Identification, {**_values(row), "part": piece}, by=by, why=why)
        for opinion in row.opinions.all():
            record_new(Opinion, {**_values(opinion), "identification": copy}, by=by, why=why)
        for citation in row.citations.all():
            record_new(Citation, {**_values(citation), "identification": copy}, by=by, why=why)


def _values(row: Identification | Opinion | Citation) -> dict[str, Any]:
    return {
        field.attname: getattr(row, field.attname)
        for field in row._meta.concrete_fields
        if not field.primary_key and field.name not in ("part", "identification")
    }
