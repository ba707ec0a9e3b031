"""Working plans out: the plans that wait are the queue, and any process may take the next.

Several workers can stand at one queue: a plan is claimed in a transaction of its own before the
work begins, and the work itself holds no lock.
"""

from datetime import datetime

from django.db import transaction
from django.utils import timezone

from catalog.models import Plan, Vehicle
from catalog.operations.plans import Order
from catalog.operations.record import keep
from catalog.queries.makings import CountOn
from catalog.queries.plan_records import as_record
from catalog.queries.plans import BestUsePlan, Wishes, plan_best_use
from catalog.reckoning.assignment import Level


def next_plan(*, at: datetime | None = None) -> Plan | None:
    """Return what is to be worked out next: what a dead worker left, or what waits longest."""
    left = (one for one in Plan.objects.filter(state=Plan.State.WORKING) if one.is_abandoned(at=at))
    return next(left, None) or Plan.objects.waiting().first()


def give_sign(key: int, *, at: datetime | None = None) -> None:
    """Let others know that the worker of this plan lives; that is no history of the plan."""
    working = Plan.objects.filter(pk=key, state=Plan.State.WORKING)
    working.update(last_sign_at=at or timezone.now())


def work_plan(plan: Plan, *, seconds: float | None = None, is_signed: bool = False) -> Plan:
    """Work a plan out now, unless somebody else does already.

    ``seconds`` cut the time short; what is not proven by then waits for more time, with the
    best so far to be looked at. ``is_signed`` promises a sign of life every few seconds. A fault
    leaves the plan marked as failed, and is raised.
    """
    if not _claimed(plan, is_signed=is_signed):
        return plan
    limit = plan.inputs["seconds"]
    allowed = limit if seconds is None else min(seconds, limit)
    try:
        best = _best(plan, allowed)
    except Exception:
        _leave(plan, Plan.State.FAILED, error="A fault of the program; the log has it.")
        raise
    is_done = best.is_proven or allowed >= limit
    plan.outcome = as_record(best)
    return _leave(plan, Plan.State.READY if is_done else Plan.State.WAITING)


def work_plan_of(key: int) -> str:
    """Work out the plan of this key, and return the state in which it is left.

    Key and answer are plain JSON and the function stands in a module, as Django's tasks
    (DEP 14) ask, so that any queue of theirs can carry it.
    """
    return str(work_plan(Plan.objects.get(pk=key)).state)


@transaction.atomic
def _claimed(plan: Plan, *, is_signed: bool) -> bool:
    now = timezone.now()
    plan.refresh_from_db(from_queryset=Plan.objects.select_for_update())
    if plan.state != Plan.State.WAITING and not plan.is_abandoned(at=now):
        return False
    plan.state, plan.started_at, plan.progress = Plan.State.WORKING, now, "Gathering what is known."
    plan.last_sign_at = now if is_signed else None
    fields = ("state", "started_at", "progress", "last_sign_at")
    keep(plan, by=None, why="being worked out", fields=fields)
    return True


def _best(plan: Plan, seconds: float) -> BestUsePlan:
    numbers = {key: number for key, _, number in plan.inputs["numbers"]}
    rows = Vehicle.objects.kept().filter(pk__in=numbers).select_related("vehicle_class")
    found = {vehicle.pk: vehicle for vehicle in rows}
    vehicles = [found[key] for key in numbers if key in found]
    return plan_best_use(
        vehicles,
        seconds=seconds,
        wishes=_wishes(plan, numbers),
        report=lambda level: _report(plan, level),
    )


def _wishes(plan: Plan, numbers: dict[int, int]) -> Wishes:
    held = {part: vehicle for part, _, vehicle, _ in plan.inputs["held"]}
    order = plan.inputs["order"]
    return Wishes(
        ranks=numbers if order == Order.STRICT else {},
        weights=numbers if order == Order.WEIGHTS else {},
        held=held,
        count_on=CountOn.read(plan.inputs),
    )


def _report(plan: Plan, level: Level) -> None:
    """Let the page say how far the work is; that is no part of the record, so no history."""
    Plan.objects.filter(pk=plan.pk).update(progress=f"Done: {level.sentence()}.")


@transaction.atomic
def _leave(plan: Plan, state: Plan.State, *, error: str = "") -> Plan:
    plan.state, plan.error, plan.progress = state, error, ""
    plan.finished_at = timezone.now() if plan.is_finished else None
    fields = ("state", "error", "progress", "outcome", "finished_at")
    return keep(plan, by=None, why=plan.get_state_display(), fields=fields)
