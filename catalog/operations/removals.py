"""Taking parts off a vehicle so that they can go back, and putting them back."""

from datetime import datetime
from typing import TypedDict, Unpack

from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from catalog.models import Fitting, Location, Member, Move, Part, Removal
from catalog.operations.fitting_rules import lock
from catalog.operations.fittings import fit_part, turn
from catalog.operations.record import keep, record_new


class HowItSat(TypedDict, total=False):
    """What is needed to put a part back: which way round, on which shims, with what bolts."""

    orientation: str
    shims: str
    fastenings: str
    note: str


@transaction.atomic
def remove_part(
    fitting: Fitting,
    *,
    location: Location | None = None,
    by: Member,
    at: datetime | None = None,
    **how: Unpack[HowItSat],
) -> Removal:
    """Take a fitted part off, as the next in the vehicle's order of taking apart.

    ``location`` is where it is put down. Refuse what is not fitted any more.
    """
    when = at or timezone.now()
    lock(fitting.part, fitting.vehicle)
    fitting.refresh_from_db()
    if fitting.state != Fitting.State.FITTED:
        raise ValidationError(
            f"{fitting.part} is not fitted at {fitting.position.code} of {fitting.vehicle} "
            f"any more: {fitting.get_state_display()} by {fitting.changed_by}."
        )
    turn(fitting, Fitting.State.REMOVED, by=by, at=when)
    if location is not None:
        _put_down(fitting.part, location, by=by, at=when)
    return record_new(Removal, _removal(fitting, by, when) | dict(how), by=by, why="taken off")


@transaction.atomic
def put_back(removal: Removal, *, by: Member, at: datetime | None = None) -> Fitting:
    """Fit a part again where it came off; refuse when it, or the position, is taken by now."""
    when = at or timezone.now()
    lock(removal.part, removal.vehicle)
    removal.refresh_from_db()
    if removal.put_back_at is not None:
        raise ValidationError(f"{removal.part} has already been put back.")
    fitting = fit_part(removal.part, removal.vehicle, removal.position, by=by, at=when)
    removal.put_back_at = when
    keep(removal, by=by, why="put back", fields=("put_back_at",))
    return fitting


def _removal(fitting: Fitting, by: Member, at: datetime) -> dict[str, object]:
    last = fitting.vehicle.removals.aggregate(last=Max("sequence"))["last"] or 0
    return {
        "vehicle": fitting.vehicle,
        "position": fitting.position,
        "part": fitting.part,
        "sequence": last + 1,
        "removed_at": at,
        "removed_by": by,
    }


def _put_down(part: Part, location: Location, *, by: Member, at: datetime) -> None:
    if part.quantity > 1 and part.location not in (None, location):
        raise ValidationError(
            {
                "location": f"{part} is a lot of {part.quantity}, kept at {part.location}. "
                "Split the piece off to keep it elsewhere."
            }
        )
    if part.location == location:
        return
    places = {"from_location": part.location, "to_location": location}
    why = "taken off a vehicle"
    record_new(Move, {"part": part, **places, "note": why, "moved_at": at, "moved_by": by}, by=by)
    part.location, part.inside = location, None
    keep(part, by=by, why=why, fields=("location", "inside"))
