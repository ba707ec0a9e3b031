"""Saying what a part is, and agreeing or disagreeing with what others say."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any, Required, TypedDict, Unpack

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalog.models import Component, Identification, Member, Opinion, Part, VehicleClass
from catalog.operations.measurements import tie_to_characteristics
from catalog.operations.record import change, record_new
from catalog.queries.identifications import claims_of, kinds_of
from catalog.reckoning.opinions import Status, standing


class Said(TypedDict, total=False):
    """What somebody takes a part to be, how sure they are, and why."""

    component: Required[Component]
    vehicle_class: VehicleClass | None
    confidence: str
    basis: str
    reasons: str
    at: datetime | None


@transaction.atomic
def propose_identification(part: Part, *, by: Member, **said: Unpack[Said]) -> Identification:
    """Say what ``part`` is: ``component=`` and, where known, ``vehicle_class=``.

    ``confidence`` is guess, probable or certain; ``basis`` says what it rests on. One person
    holds one opinion of a part: a different one takes the place of the former, and the same
    one said again with better reasons amends it, so that what others agreed to stays. Refuse
    a part or a component that is withdrawn.
    """
    _refuse_withdrawn(part, said["component"])
    when = said.get("at") or timezone.now()
    told: dict[str, Any] = {name: value for name, value in said.items() if name != "at"}
    former = _own(part, by)
    if former is not None and _is_same(former, said):
        change(former, told, by=by, why="said again what it is")
        identification = former
    else:
        _supersede(former, when, by=by)
        told |= {"part": part, "made_at": when, "made_by": by}
        identification = record_new(Identification, told, by=by, why="said what it is")
    keep_standing(part, by=by)
    return identification


@transaction.atomic
def identify_several(
    parts: Iterable[Part], *, by: Member, **said: Unpack[Said]
) -> tuple[Identification, ...]:
    """Say the same of several parts at once; all of them or none."""
    return tuple(propose_identification(part, by=by, **said) for part in parts)


@transaction.atomic
def give_opinion(
    identification: Identification,
    *,
    agrees: bool,
    by: Member,
    reasons: str = "",
    at: datetime | None = None,
) -> Opinion:
    """Agree with another person's identification, or dispute it with ``reasons``.

    Whoever agrees gives up their own different identification of the part. An opinion given
    again replaces the former one. Refuse one's own identification, one that is superseded,
    and a dispute without reasons.
    """
    _refuse_opinion(identification, agrees, reasons, by)
    when = at or timezone.now()
    told = {"agrees": agrees, "reasons": reasons.strip(), "made_at": when}
    why = "agreed" if agrees else "disputed"
    former = identification.opinions.filter(made_by=by).first()
    if former is not None:
        opinion = change(former, told, by=by, why=why)
    else:
        told |= {"identification": identification, "made_by": by}
        opinion = record_new(Opinion, told, by=by, why=why)
    if agrees:
        _supersede(_contradicting(identification, by), when, by=by)
    keep_standing(identification.part, by=by)
    return opinion


@transaction.atomic
def take_back(
    identification: Identification, *, by: Member, at: datetime | None = None
) -> Identification:
    """Take an identification of one's own back; it stays in the history."""
    if identification.made_by_id != by.pk:
        raise ValidationError("Only who said it can take it back; you can dispute it.")
    _supersede(identification, at or timezone.now(), by=by)
    keep_standing(identification.part, by=by)
    return identification


@transaction.atomic
def take_back_several(
    identifications: Iterable[Identification], *, by: Member, at: datetime | None = None
) -> tuple[Identification, ...]:
    """Take several identifications of one's own back at once; all of them or none."""
    return tuple(take_back(one, by=by, at=at) for one in identifications)


@transaction.atomic
def keep_standing(part: Part, *, by: Member) -> Part:
    """Write on ``part`` what its identifications amount to, where that has changed."""
    held = Part.objects.select_for_update().get(pk=part.pk)
    rows = {row.pk: row for row in held.identifications.standing()}
    found = standing(claims_of(rows.values()))
    leading = rows[found.leading] if found.leading is not None else None
    now: dict[str, Any] = {
        "component_id": leading.component_id if leading else None,
        "vehicle_class_id": leading.vehicle_class_id if leading else None,
        "identification_status": found.status.value,
    }
    before = {name: getattr(held, name) for name in now}
    if now != before:
        change(held, now, by=by, why=_told(leading, found.status))
        tie_to_characteristics(held, by=by)
    for name, value in now.items():
        setattr(part, name, value)
    return part


def _told(leading: Identification | None, status: Status) -> str:
    return f"{leading}: {status.value}" if leading else "no longer identified"


def _refuse_withdrawn(part: Part, component: Component) -> None:
    if part.is_withdrawn:
        raise ValidationError("This part is withdrawn; bring it back first.")
    if component.is_withdrawn:
        raise ValidationError({"component": f"“{component}” is withdrawn; choose another one."})


def _own(part: Part, by: Member) -> Identification | None:
    return part.identifications.standing().filter(made_by=by).first()


def _is_same(former: Identification, said: Said) -> bool:
    vehicle_class = said.get("vehicle_class")
    return former.component_id == said["component"].pk and former.vehicle_class_id == (
        vehicle_class.pk if vehicle_class else None
    )


def _supersede(former: Identification | None, when: datetime, *, by: Member) -> None:
    if former is not None:
        change(former, {"superseded_at": when}, by=by, why="no longer held")


def _contradicting(identification: Identification, by: Member) -> Identification | None:
    own = _own(identification.part, by)
    if own is None:
        return None
    kinds = kinds_of([own.component_id, identification.component_id])
    theirs, mine = claims_of([identification, own], kinds)
    return own if mine.contradicts(theirs) else None


def _refuse_opinion(identification: Identification, agrees: bool, reasons: str, by: Member) -> None:
    if identification.made_by_id == by.pk:
        raise ValidationError(
            "This is your own identification. Another person has to look at the piece too."
        )
    if identification.superseded_at is not None:
        raise ValidationError("This identification is no longer held by who made it.")
    if not agrees and not reasons.strip():
        raise ValidationError({"reasons": "Say why you think otherwise."})
