"""Working through what came in: one part at a time, each step with a way back."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, TypedDict, Unpack

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalog.models import Component, Identification, Location, Member, Move, Part, SeenApart
from catalog.operations.identifications import propose_identification, take_back
from catalog.operations.moves import move_back, move_part
from catalog.operations.parts import change_part
from catalog.operations.record import latest_version, record_new, remove, withdraw

OF_THE_PART = ("tag", "description", "quantity", "usability")


class Worked(TypedDict, total=False):
    """What was filled in beside the photo; what is left out stays as it is."""

    tag: str | None
    description: str
    quantity: int
    usability: str
    component: Component | None
    location: Location | None


@dataclass(frozen=True, slots=True)
class Step:
    """What one step did, as keys of what it wrote, so that it can be taken back."""

    before: int | None
    after: int | None
    move: int | None = None
    said: int | None = None
    former: int | None = None

    @property
    def is_idle(self) -> bool:
        return self.before == self.after


@transaction.atomic
def work_on(
    part: Part,
    *,
    by: Member,
    seen: int | None = None,
    at: datetime | None = None,
    **worked: Unpack[Worked],
) -> Step:
    """Write down what was filled in for ``part``, all of it or nothing.

    A ``component`` other than the one it stands as is proposed as probable; another
    ``location`` is a move. Refuse what the single operations refuse, and a part that somebody
    else changed since version ``seen``.
    """
    before = latest_version(part)
    if changed := _changed(part, worked):
        change_part(part, changed, by=by, seen=seen)
    said, former = _said(part, worked.get("component"), by, at)
    move = None
    location = worked.get("location")
    if location is not None and location.pk != part.location_id:
        move = move_part(part, location=location, note="on the bench", by=by, at=at).pk
    return Step(before, latest_version(part), move, said, former)


@transaction.atomic
def undo_step(part: Part, step: Step, *, by: Member, at: datetime | None = None) -> Part:
    """Take a step back: move the part back, take the identification back, restore the fields.

    Refuse when the part was changed again since.
    """
    if latest_version(part) != step.after:
        raise ValidationError(f"{part} was changed again since; look at its history.")
    if step.move is not None:
        move_back(Move.objects.filter(pk=step.move, part=part), by=by, at=at)
    if step.said is not None:
        _unsay(part, step, by, at)
    entry = part.history.get(pk=step.before)
    part.refresh_from_db()
    if changed := _changed(part, {name: getattr(entry, name) for name in OF_THE_PART}):
        change_part(part, changed, by=by)
    return part


@transaction.atomic
def same_piece(part: Part, other: Part, *, by: Member, at: datetime | None = None) -> Part:
    """Withdraw ``part``, which is the same piece as ``other``; its reason says so.

    Its photos, marks and tag stay with it, so that its label still leads to where it is told.
    Refuse a part as its own twin, and a twin that is itself withdrawn.
    """
    if part.pk == other.pk:
        raise ValidationError({"other": "This is the part itself; give the number of the other."})
    if other.is_withdrawn:
        raise ValidationError({"other": f"{other} is withdrawn; give the part that is kept."})
    return withdraw(part, by=by, reason=f"the same piece as {other}", at=at)


@transaction.atomic
def see_apart(part: Part, *, by: Member, at: datetime | None = None) -> SeenApart:
    """Write down that somebody looked and found ``part`` to be a piece of its own."""
    former = SeenApart.objects.filter(part=part).first()
    values = {"part": part, "seen_at": at or timezone.now(), "seen_by": by}
    return former or record_new(SeenApart, values, by=by, why="a piece of its own")


@transaction.atomic
def doubt_again(part: Part, *, by: Member) -> None:
    """Take back that the part is a piece of its own."""
    for seen in SeenApart.objects.filter(part=part):
        remove(seen, by=by, why="doubted again")


def _changed(part: Part, worked: Mapping[str, Any]) -> dict[str, Any]:
    told = {name: worked[name] for name in OF_THE_PART if name in worked}
    if "tag" in told:
        told["tag"] = told["tag"] or None
    return {name: value for name, value in told.items() if value != getattr(part, name)}


def _said(
    part: Part, component: Component | None, by: Member, at: datetime | None
) -> tuple[int | None, int | None]:
    """Propose ``component`` where it is news; return the new identification and the former."""
    if component is None or component.pk == part.component_id:
        return None, None
    former = part.identifications.standing().filter(made_by=by).first()
    now = propose_identification(
        part,
        by=by,
        component=component,
        confidence=Identification.Confidence.PROBABLE,
        basis=Identification.Basis.OPINION,
        at=at,
    )
    if former is not None and former.pk == now.pk:
        return None, None
    return now.pk, former.pk if former else None


def _unsay(part: Part, step: Step, by: Member, at: datetime | None) -> None:
    identifications = part.identifications.in_bulk([key for key in (step.said, step.former) if key])
    for key, identification in identifications.items():
        if key == step.said:
            take_back(identification, by=by, at=at)
    former = identifications.get(step.former or 0)
    if former is None:
        return
    propose_identification(
        part,
        by=by,
        component=former.component,
        vehicle_class=former.vehicle_class,
        confidence=former.confidence,
        basis=former.basis,
        reasons=former.reasons,
        at=at,
    )
