"""Plans as records: made from the group's wishes, applied as reservations, and undone."""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from datetime import datetime
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalog.models import Fitting, Member, Part, Plan, Position, Vehicle
from catalog.operations.fittings import release_reservation, reserve_part
from catalog.operations.record import change, record_new
from catalog.queries.fit_bench import PARTS_AT_MOST, Bench, lay_out
from catalog.queries.makings import CountOn
from catalog.queries.plan_facts import PlanFacts, facts_of
from catalog.queries.plan_outcomes import (
    Outcome,
    UseLine,
    VehicleOutcome,
    outcome_of,
    still_to_reserve,
)
from catalog.reckoning.plurals import counted
from catalog.reckoning.section_lining import LININGS

LONGEST_SECONDS = 600
# A page lists the first few reasons; nobody reads fifty.
MOST_REASONS = 12


class Order:
    """How the numbers that stand beside vehicles are meant."""

    STRICT = "strict"
    EQUAL = "equal"
    WEIGHTS = "weights"


@transaction.atomic
def make_plan(values: Mapping[str, Any], *, by: Member, at: datetime | None = None) -> Plan:
    """Ask for a plan, which then waits to be worked out; nothing is reserved by it.

    ``values`` are its ``name``; ``numbers``, a mapping of each vehicle to its place in the order
    or to its weight; ``order``, one of ``Order``; ``held``, pairs of a part and the vehicle that
    it is held back for; ``repairs``, ``patterns`` and ``drawings``, whether it counts on parts
    that have to be repaired first, on pieces made from patterns in hand, and on pieces made after
    drawings or patent figures; and ``seconds``, the most it may take. Refuse a plan for no
    vehicle, a number below 1, and a part held for one vehicle that is kept for another.
    """
    numbers: Mapping[Vehicle, int] = values.get("numbers", {})
    held = list(values.get("held", ()))
    seconds = values.get("seconds", 30)
    _refuse_nonsense(numbers, seconds)
    _refuse_contradictions(held, numbers)
    inputs = {
        "order": values.get("order", Order.STRICT),
        "numbers": [[vehicle.pk, str(vehicle), number] for vehicle, number in numbers.items()],
        "held": [[part.pk, str(part), vehicle.pk, str(vehicle)] for part, vehicle in held],
        "seconds": seconds,
        **{name: bool(values.get(name)) for name in ("repairs", "patterns", "drawings")},
    }
    told = {"name": values["name"], "inputs": inputs, "made_by": by}
    return record_new(Plan, {**told, "made_at": at or timezone.now()}, by=by, why="plan made")


def _refuse_nonsense(numbers: Mapping[Vehicle, int], seconds: int) -> None:
    if not numbers:
        raise ValidationError("Give at least one vehicle a number; the others are left out.")
    if any(number < 1 for number in numbers.values()):
        raise ValidationError("The numbers beside vehicles begin at 1.")
    if not 1 <= seconds <= LONGEST_SECONDS:
        raise ValidationError({"seconds": f"Between 1 and {LONGEST_SECONDS} seconds."})


def _refuse_contradictions(
    held: Iterable[tuple[Part, Vehicle]], numbers: Mapping[Vehicle, int]
) -> None:
    for part, vehicle in held:
        if vehicle not in numbers:
            raise ValidationError({"held": f"{vehicle} is not in the plan, so {part} cannot wait."})
        if part.keep_with_id not in (None, vehicle.pk):
            raise ValidationError({"held": f"{part} is kept for {part.keep_with} already."})


@transaction.atomic
def apply_plan(plan: Plan, *, by: Member, at: datetime | None = None) -> list[Fitting]:
    """Reserve every part where the plan sends it, all in one transaction or none.

    What stands there by this plan already, since it was touched before the plan was undone, is
    left as it is. What the plan counts on to be made is no part yet, and nothing is recorded of
    it. Refuse with every reason where the record has moved on since: a position filled, a part
    used, withdrawn, kept for another vehicle, or found not to fit, a pattern gone.
    """
    when = at or timezone.now()
    plan.refresh_from_db(from_queryset=Plan.objects.select_for_update())
    outcome = _refuse_unready(plan)
    reasons = _overtaken(plan, outcome)
    made = []
    for vehicle, part, position in _uses(still_to_reserve(plan, outcome)):
        try:
            made.append(reserve_part(part, vehicle, position, by=by, plan=plan, at=when))
        except ValidationError as refusal:
            reasons += refusal.messages
    if reasons:
        raise ValidationError(_in_words(reasons))
    change(plan, {"applied_at": when}, by=by, why=f"applied: {len(made)} reserved")
    return made


def _refuse_unready(plan: Plan) -> Outcome:
    if plan.is_applied:
        raise ValidationError(f"“{plan}” is applied already.")
    outcome = outcome_of(plan)
    if plan.state != Plan.State.READY or outcome is None:
        raise ValidationError(f"“{plan}” is {plan.get_state_display()}: nothing can be applied.")
    if not outcome.uses:
        made = " What it counts on to be made is no part yet." if outcome.makes else ""
        raise ValidationError(
            f"“{plan}” sends no part anywhere: there is nothing to reserve.{made}"
        )
    if not still_to_reserve(plan, outcome):
        raise ValidationError(f"Everything is where “{plan}” sends it: nothing is left to reserve.")
    return outcome


def _uses(
    lines: Collection[tuple[VehicleOutcome, UseLine]],
) -> Iterable[tuple[Vehicle, Part, Position]]:
    vehicles = Vehicle.objects.in_bulk([vehicle.vehicle for vehicle, _ in lines])
    parts = Part.objects.in_bulk([use.part for _, use in lines])
    positions = Position.objects.select_related("component").in_bulk(
        [use.position for _, use in lines]
    )
    for vehicle, use in lines:
        if use.position not in positions:
            gone = f"{use.code} of {vehicle.label} is a position no more."
            raise ValidationError(_in_words([gone]))
        yield vehicles[vehicle.vehicle], parts[use.part], positions[use.position]


def _overtaken(plan: Plan, outcome: Outcome) -> list[str]:
    """Say which parts are known by now not to do, and which pieces not to be made, as planned."""
    keys = [one.vehicle for one in outcome.vehicles]
    vehicles = list(Vehicle.objects.filter(pk__in=keys).select_related("vehicle_class"))
    bench = lay_out(vehicles, at_least=lambda component: PARTS_AT_MOST)
    held = {part: vehicle for part, _, vehicle, _ in plan.inputs["held"]}
    facts = facts_of(bench, vehicles, count_on=CountOn.read(plan.inputs), held=held)
    return [*_misfits(outcome, bench, facts), *_not_to_be_made(outcome, facts)]


def _misfits(outcome: Outcome, bench: Bench, facts: PlanFacts) -> Iterator[str]:
    for vehicle, use in outcome.uses:
        key = f"{vehicle.vehicle}/{use.position}"
        part = facts.parts.get(str(use.part))
        if part is None or key not in facts.places or (str(use.part), key) in facts.candidates:
            continue
        if facts.places[key].is_for(part):
            found = bench.judge.judge(part, facts.places[key])
            where = f"{use.label} at {use.code} of {vehicle.label}"
            state = LININGS.get(found.state)
            yield f"{where}: {f'{state.words}. ' if state else ''}{found.reason}"


def _not_to_be_made(outcome: Outcome, facts: PlanFacts) -> Iterator[str]:
    for vehicle, make in outcome.makes:
        key = f"{vehicle.vehicle}/{make.position}"
        where = f"{make.component} at {make.code} of {vehicle.label}"
        place = facts.places.get(key)
        if place is None:
            yield f"{where}: it is a position no more."
        elif place.fitting is not None:
            yield f"{where}: {_standing(place.fitting)}, so none has to be made."
        elif key not in facts.makings.of_places:
            yield f"{where}: it cannot be made as planned any more ({make.sentence})."
    yield from _castings_lacking(outcome, facts)


def _standing(fitting: Fitting) -> str:
    """Say how a part stands there: what is reserved is not there yet."""
    return f"{fitting.part} is {fitting.get_state_display()} there now"


def _castings_lacking(outcome: Outcome, facts: PlanFacts) -> Iterator[str]:
    makes = Counter((make.part, make.label) for _, make in outcome.makes if make.part)
    for (pattern, label), count in makes.items():
        left = facts.makings.castings_left.get(pattern, count)
        if left < count:
            many = counted(left, "casting")
            yield f"{label}: the plan makes {count} from it, and {many} may still be made."


def _in_words(reasons: list[str]) -> list[str]:
    more = len(reasons) - MOST_REASONS
    told = ["The record has moved on since the plan was made, so nothing was reserved:"]
    told += reasons[:MOST_REASONS]
    return [*told, f"and {more} reasons more."] if more > 0 else told


@transaction.atomic
def undo_plan(plan: Plan, *, by: Member, at: datetime | None = None) -> tuple[int, int]:
    """Release the reservations of a plan that nobody has touched since it was applied.

    Return how many were released and how many stay, since they were tried or fitted since. The
    plan can be applied again.
    """
    plan.refresh_from_db(from_queryset=Plan.objects.select_for_update())
    if plan.applied_at is None:
        raise ValidationError(f"“{plan}” is not applied.")
    active = list(plan.fittings.active().select_related("part", "vehicle", "position"))
    untouched = [
        fitting
        for fitting in active
        if fitting.state == Fitting.State.RESERVED and fitting.changed_at == plan.applied_at
    ]
    for fitting in untouched:
        release_reservation(fitting, by=by, note=f"plan “{plan}” undone", at=at)
    change(plan, {"applied_at": None}, by=by, why=f"undone: {len(untouched)} released")
    return len(untouched), len(active) - len(untouched)
