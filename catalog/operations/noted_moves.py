"""Moves that were noted without a signal, and may have been overtaken before they arrived."""

from collections.abc import Sequence
from datetime import datetime

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import Location, Member, Move, Part
from catalog.operations.moves import move_parts


@transaction.atomic
def move_as_noted(
    parts: Sequence[Part], *, location: Location | None, note: str, by: Member, at: datetime
) -> list[Move]:
    """Move several parts as of ``at``, all or none; those that are there already stay untold.

    Sent again, it therefore changes nothing. Refuse when one of them has been moved elsewhere
    since ``at``: what was noted first must not undo what was done later.
    """
    for part in parts:
        last = part.moves.select_related("moved_by", "to_location", "to_inside").first()
        if last is not None and last.moved_at > at and last.to_location != location:
            raise ValidationError(
                {
                    "pieces": f"{part} was moved again after this was noted, to "
                    f"{last.to_location or last.to_inside or 'nowhere recorded'} by "
                    f"{last.moved_by}. Look where it is, then leave it out here or move it anew."
                }
            )
    return move_parts(parts, location=location, note=note, by=by, at=at)
