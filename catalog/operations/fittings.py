"""Reserving, trying, fitting, taking off and putting back: a part's way onto a vehicle."""

from datetime import datetime
from typing import TypedDict, Unpack

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalog.models import Fitting, Member, Move, Part, Plan, Position, Trial, Vehicle
from catalog.operations.fitting_rules import (
    fitting_at,
    lock,
    refuse_other_component,
    refuse_unless_open,
    refuse_unusable,
    refuse_used_up,
)
from catalog.operations.record import keep, record_new, withdraw

State = Fitting.State


class About(TypedDict, total=False):
    """What may be said of a fitting: the plan it follows, a note, and when it was."""

    plan: Plan | None
    note: str
    at: datetime | None


class Against(TypedDict, total=False):
    """What a part was offered up to: a position of a vehicle, or another part."""

    vehicle: Vehicle | None
    position: Position | None
    other_part: Part | None


def reserve_part(
    part: Part, vehicle: Vehicle, position: Position, *, by: Member, **about: Unpack[About]
) -> Fitting:
    """Keep one piece of ``part`` for a position; it stays where it is until it is fitted."""
    return _bring(part, vehicle, position, State.RESERVED, by=by, about=about)


def begin_trial(
    part: Part, vehicle: Vehicle, position: Position, *, by: Member, **about: Unpack[About]
) -> Fitting:
    """Put a part on trial at a position; ``record_trial`` tells how it went.

    A piece that nobody has identified may be tried too: that is how one finds out.
    """
    return _bring(part, vehicle, position, State.TRIAL, by=by, about=about)


def fit_part(
    part: Part, vehicle: Vehicle, position: Position, *, by: Member, **about: Unpack[About]
) -> Fitting:
    """Fit a part, from its reservation or trial there or straight from the shelf.

    When no piece of it is left on the shelf, the record says that it left its location.
    """
    return _bring(part, vehicle, position, State.FITTED, by=by, about=about)


@transaction.atomic
def release_reservation(
    fitting: Fitting, *, by: Member, note: str = "", at: datetime | None = None
) -> Fitting:
    """Give up a reservation or a trial, so that the part is free for others."""
    lock(fitting.part, fitting.vehicle)
    fitting.refresh_from_db()
    if fitting.state not in (State.RESERVED, State.TRIAL):
        raise ValidationError(
            f"{fitting.part} is neither reserved nor on trial there any more: "
            f"{fitting.get_state_display()} by {fitting.changed_by}."
        )
    fitting.note = note or fitting.note
    return turn(fitting, State.RELEASED, by=by, at=at or timezone.now())


@transaction.atomic
def record_trial(
    part: Part,
    *,
    outcome: str,
    what_bound: str = "",
    by: Member,
    at: datetime | None = None,
    **against: Unpack[Against],
) -> Trial:
    """Record how a part went when it was offered up to a position or to another part.

    A part that did not go loses its trial or reservation there. Refuse that of a part which is
    fitted there, because it must be taken off first.
    """
    what_bound = what_bound.strip()
    if outcome == Trial.Outcome.DID_NOT_GO and not what_bound:
        words = "Say what bound, so that nobody tries it again for nothing."
        raise ValidationError({"what_bound": words})
    when = at or timezone.now()
    values = {"part": part, "outcome": outcome, "what_bound": what_bound, "tried_by": by}
    trial = record_new(Trial, {**values, "tried_at": when, **against}, by=by, why="tried")
    if outcome == Trial.Outcome.DID_NOT_GO and trial.position is not None:
        _reject(trial, by=by, at=when)
    return trial


@transaction.atomic
def take_back_trial(trial: Trial, *, by: Member) -> Trial:
    """Take back a trial that one has written down oneself; it stays in the history.

    A part that gave its position up for it does not return there: it may be elsewhere by now.
    """
    if trial.tried_by_id != by.pk and not by.is_curator:
        raise ValidationError("Only who wrote it down can take it back, or a curator.")
    return withdraw(trial, by=by, reason="taken back")


def _reject(trial: Trial, *, by: Member, at: datetime) -> None:
    there = Fitting.objects.active().filter(
        part=trial.part, vehicle=trial.vehicle, position=trial.position
    )
    fitting = there.select_for_update().first()
    if fitting is None:
        return
    if fitting.state == State.FITTED:
        raise ValidationError(f"{trial.part} is fitted there. Take it off first, then say why.")
    fitting.note = trial.what_bound
    turn(fitting, State.REJECTED, by=by, at=at)


@transaction.atomic
def _bring(
    part: Part,
    vehicle: Vehicle,
    position: Position,
    state: Fitting.State,
    *,
    by: Member,
    about: About,
) -> Fitting:
    when = about.get("at") or timezone.now()
    lock(part, vehicle)
    refuse_unless_open(part, vehicle, position)
    refuse_unusable(part, position, as_state=state)
    refuse_other_component(part, position, as_state=state)
    fitting = fitting_at(part, vehicle, position)
    if fitting is None:
        refuse_used_up(part)
        fitting = Fitting(part=part, vehicle=vehicle, position=position, begun_at=when)
    elif fitting.state == State.FITTED or fitting.state == state:
        raise ValidationError(
            f"{part} is already {fitting.get_state_display()} at {position.code} of {vehicle}."
        )
    fitting.plan = about.get("plan") or fitting.plan
    fitting.note = about.get("note") or fitting.note
    turn(fitting, state, by=by, at=when)
    if state == State.FITTED:
        _leave_shelf(fitting, by=by, at=when)
    return fitting


def turn(fitting: Fitting, state: Fitting.State, *, by: Member, at: datetime) -> Fitting:
    """Bring a fitting into another state, remembering who did it and when."""
    fitting.state, fitting.changed_at, fitting.changed_by = state, at, by
    where = f"{fitting.position.code} of {fitting.vehicle}"
    return keep(fitting, by=by, why=f"{fitting.get_state_display()} at {where}")


def _leave_shelf(fitting: Fitting, *, by: Member, at: datetime) -> None:
    part = fitting.part
    fitted = Fitting.objects.filter(part=part, state=State.FITTED).count()
    if fitted < part.quantity or (part.location is None and part.inside is None):
        return
    why = f"fitted at {fitting.position.code} of {fitting.vehicle}"
    left = {"from_location": part.location, "from_inside": part.inside}
    record_new(Move, {"part": part, **left, "note": why, "moved_at": at, "moved_by": by}, by=by)
    part.location = part.inside = None
    keep(part, by=by, why=why, fields=("location", "inside"))
