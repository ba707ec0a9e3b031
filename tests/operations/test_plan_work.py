"""Working plans out: the queue, who takes the next, and what becomes of faults."""

import datetime as dt
import json

import pytest
from django.utils import timezone

from catalog.models import Plan
from catalog.operations import plan_work
from catalog.operations.plan_work import (
    give_sign,
    next_plan,
    work_plan,
    work_plan_of,
)
from catalog.operations.plans import make_plan
from catalog.queries.plan_outcomes import outcome_of
from tests.factories import LONG_AGO
from tests.tramway import lay_out_shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop(db):
    return lay_out_shop()


@pytest.fixture
def make(shop, curator):
    def made(name="Try", **values):
        numbers = {vehicle: place for place, vehicle in enumerate(shop.vehicles.values(), start=1)}
        return make_plan({"name": name, "numbers": numbers, **values}, by=curator)

    return made


def work_next_plan():
    """Do what a worker does each time it looks at the queue."""
    plan = next_plan()
    return work_plan(plan) if plan else None


def test_plan_is_worked_out_with_its_proof(make):
    plan = work_plan(make())

    outcome = outcome_of(Plan.objects.get())
    assert (plan.state, plan.progress, plan.error) == (Plan.State.READY, "", "")
    assert plan.started_at <= plan.finished_at
    assert (outcome.sentence, outcome.is_proven, outcome.complete) == ("1 complete", True, 1)
    assert [one.sentence for one in outcome.vehicles] == [
        "Can be completed.",
        "Waits for 1 drawhead.",
        "Waits for 2 journal boxes and 2 drawheads.",
    ]


def test_plan_says_what_is_proven_level_by_level(make):
    levels = outcome_of(work_plan(make())).levels

    assert levels[0].words == "1 complete vehicles"
    assert [level.is_proven for level in levels] == [True] * 4


def test_queue_serves_the_oldest_first_and_ends(make):
    late, early = make("late"), make("early")
    Plan.objects.filter(pk=early.pk).update(made_at=LONG_AGO)

    assert [work_next_plan().name, work_next_plan().name, work_next_plan()] == [
        "early",
        "late",
        None,
    ]
    late.refresh_from_db()
    assert late.state == Plan.State.READY


def test_plan_that_somebody_works_on_is_left_to_them(make):
    plan = make()
    Plan.objects.filter(pk=plan.pk).update(state="working", started_at=timezone.now())

    assert work_plan(plan).state == Plan.State.WORKING
    assert work_next_plan() is None
    assert plan.outcome == {}


def test_plan_of_a_worker_that_died_is_taken_up_again(make):
    plan = make()
    long_since = timezone.now() - dt.timedelta(seconds=30 + 121)
    Plan.objects.filter(pk=plan.pk).update(state="working", started_at=long_since)

    assert work_next_plan() == plan
    plan.refresh_from_db()
    assert plan.state == Plan.State.READY


def test_silence_of_a_worker_gives_its_plan_to_the_next(make):
    plan, now = make(), timezone.now()
    Plan.objects.filter(pk=plan.pk).update(state="working", started_at=now, last_sign_at=now)

    assert next_plan(at=now + dt.timedelta(seconds=29)) is None
    assert next_plan(at=now + dt.timedelta(seconds=31)) == plan


def test_sign_of_life_is_no_part_of_the_history(make):
    plan = make()
    Plan.objects.filter(pk=plan.pk).update(state="working", started_at=LONG_AGO)
    before = plan.history.count()

    give_sign(plan.pk)

    plan.refresh_from_db()
    assert (plan.is_abandoned(), plan.history.count()) == (False, before)


def test_sign_for_a_plan_that_nobody_works_on_changes_nothing(make):
    plan = make()

    give_sign(plan.pk)

    plan.refresh_from_db()
    assert plan.last_sign_at is None


def test_plan_without_time_keeps_the_best_so_far_and_waits_for_more(make):
    plan = work_plan(make(), seconds=0)

    assert (plan.state, plan.finished_at) == (Plan.State.WAITING, None)
    assert outcome_of(plan).is_proven is False
    assert outcome_of(work_plan(plan)).is_proven is True


def test_progress_can_be_read_while_the_work_goes_on(make, monkeypatch):
    plan, seen = make(), []
    whole = plan_work._report

    def watched(plan, level):
        whole(plan, level)
        seen.append(Plan.objects.get().progress)

    monkeypatch.setattr(plan_work, "_report", watched)
    work_plan(plan)

    assert seen[0] == "Done: 1 complete vehicles."
    assert len(seen) == 4


def test_fault_is_on_the_plan_and_is_raised(make):
    plan = make()
    plan.inputs = {**plan.inputs, "numbers": "nonsense"}
    plan.save()

    with pytest.raises(ValueError, match="unpack"):
        work_plan(plan)

    plan.refresh_from_db()
    assert (plan.state, plan.error) == (
        Plan.State.FAILED,
        "A fault of the program; the log has it.",
    )


def test_vehicle_withdrawn_since_is_left_out(make, shop):
    plan = make()
    shop.vehicles["Wagon 14"].__class__.objects.filter(label="Wagon 14").update(
        withdrawn_at=LONG_AGO
    )

    outcome = outcome_of(work_plan(plan))

    assert [one.label for one in outcome.vehicles] == ["Wagon 22", "Wagon 31"]


def test_a_queue_of_tasks_carries_a_plan_by_its_key_alone(make):
    sent = json.loads(json.dumps({"key": make().pk}))

    answer = work_plan_of(**sent)

    assert json.loads(json.dumps(answer)) == "ready"
    assert Plan.objects.get().state == Plan.State.READY
