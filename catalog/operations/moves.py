"""Moving parts: every change of place is written down, with a way back."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalog.models import Location, Member, Move, Part
from catalog.operations.record import change, record_new

# A bolt in a tin in a crate on a shelf is as deep as anybody finds things again.
DEEPEST_NEST = 3


@dataclass(frozen=True, slots=True)
class Place:
    """Where a part is: at a location, inside another part, or nowhere that is recorded."""

    location: Location | None = None
    inside: Part | None = None

    @classmethod
    def of(cls, part: Part) -> "Place":
        return cls(part.location, part.inside)

    def __str__(self) -> str:
        return str(self.location or self.inside or "nowhere recorded")


@transaction.atomic
def move_part(
    part: Part,
    *,
    location: Location | None = None,
    inside: Part | None = None,
    note: str = "",
    by: Member,
    at: datetime | None = None,
) -> Move:
    """Move a part to a location or into another part, and write the move down.

    Refuse a place that is withdrawn, a part inside itself or what it holds, more than three
    parts inside one another, and a part that is there already.
    """
    place = _one_place(location, inside)
    _lock(part, inside)
    if Place.of(part) == place:
        raise ValidationError(f"{part} is there already: {place}.")
    return _move(part, place, note=note, by=by, at=at)


@transaction.atomic
def move_parts(
    parts: Iterable[Part],
    *,
    location: Location | None = None,
    inside: Part | None = None,
    note: str = "",
    by: Member,
    at: datetime | None = None,
) -> list[Move]:
    """Move several parts in one go, all or none; those that are there already stay untold."""
    place = _one_place(location, inside)
    moves = []
    for part in parts:
        _lock(part, inside)
        if Place.of(part) != place:
            moves.append(_move(part, place, note=note, by=by, at=at))
    return moves


@transaction.atomic
def move_back(moves: Iterable[Move], *, by: Member, at: datetime | None = None) -> list[Move]:
    """Undo moves: each part goes back to where it came from, which is written down too.

    Refuse when a part has been moved again since.
    """
    back = []
    for move in moves:
        part = move.part
        _lock(part, move.from_inside)
        if part.moves.first() != move:
            raise ValidationError(f"{part} has been moved again since; look where it is now.")
        place = Place(move.from_location, move.from_inside)
        back.append(_move(part, place, note="moved back", by=by, at=at))
    return back


def _one_place(location: Location | None, inside: Part | None) -> Place:
    if (location is None) == (inside is None):
        raise ValidationError("Say where it goes: to a location, or into another part.")
    return Place(location, inside)


def _lock(part: Part, inside: Part | None) -> None:
    """Hold the part until the move is written down, and look afresh where it is.

    What it goes into is held too: of two parts that are put into one another at the same
    moment, the second is refused. Both are held in one order, so that nobody waits in a ring.
    """
    keys = [part.pk] if inside is None else [part.pk, inside.pk]
    list(Part.objects.select_for_update().filter(pk__in=keys).order_by("pk").values_list("pk"))
    part.refresh_from_db(fields=["location", "inside", "withdrawn_at"])


def _move(part: Part, place: Place, *, note: str, by: Member, at: datetime | None) -> Move:
    _refuse_withdrawn(part, place)
    if place.inside is not None:
        _refuse_nest(part, place.inside)
    former = Place.of(part)
    values = {"location": place.location, "inside": place.inside}
    change(part, values, by=by, why=f"{Move.IN_HISTORY} {place}")
    move = {
        "part": part,
        "from_location": former.location,
        "from_inside": former.inside,
        "to_location": place.location,
        "to_inside": place.inside,
        "note": note.strip(),
        "moved_at": at or timezone.now(),
        "moved_by": by,
    }
    return record_new(Move, move, by=by)


def _refuse_withdrawn(part: Part, place: Place) -> None:
    for record in (part, place.location, place.inside):
        if record is not None and record.is_withdrawn:
            raise ValidationError(f"{record} is withdrawn; nothing is moved there or from there.")


def _refuse_nest(part: Part, holder: Part) -> None:
    above = _holders(holder)
    if part in above:
        itself = "itself" if holder == part else f"{holder}, which is inside it"
        raise ValidationError(f"{part} cannot be put inside {itself}.")
    if len(above) + _nest_below(part) > DEEPEST_NEST:
        raise ValidationError(
            f"{part} cannot be put inside {holder}: at most {DEEPEST_NEST} parts hold one another, "
            "or nobody finds them again. Put it on a shelf or in a box instead."
        )


def _holders(part: Part) -> list[Part]:
    """Return the part and what it is inside of, outward."""
    found = [part]
    while (holder := found[-1].inside) is not None and holder not in found:
        found.append(holder)
    return found


def _nest_below(part: Part) -> int:
    """Return how many parts deep the contents of ``part`` go."""
    depth, level = 0, [part.pk]
    while depth <= DEEPEST_NEST:
        level = list(Part.objects.filter(inside__in=level).values_list("pk", flat=True))
        if not level:
            break
        depth += 1
    return depth
