"""What plans came to, and two of them side by side."""

import pytest

from catalog.queries.plan_outcomes import (
    MakeLine,
    OpenLine,
    Outcome,
    UseLine,
    VehicleOutcome,
    compared,
    outcome_of,
)
from catalog.queries.plan_records import as_record
from catalog.queries.plans import plan_best_use
from catalog.reckoning.efforts import Effort
from tests.factories import PlanFactory
from tests.tramway import lay_out_shop


def vehicle(key, *, complete=False, parts=(), lacking=0, hours=()):
    uses = tuple(
        UseLine(number, f"P{number}", "hinge", number, f"part {number}", "") for number in parts
    )
    still_open = tuple(
        OpenLine(n, f"Q{n}", "hinge", True, "nothing in hand") for n in range(lacking)
    )
    makes = tuple(MakeLine(9, "M", "hinge", "make", Effort(10 * n, True)) for n in hours)
    return VehicleOutcome(key, f"v{key}", f"Wagon {key}", complete, "", uses, still_open, makes)


def outcome(*vehicles):
    return Outcome("", True, (), vehicles)


@pytest.mark.parametrize(
    ("first", "second", "words"),
    [
        (vehicle(1), vehicle(1, complete=True), "gains: it is completed"),
        (vehicle(1, complete=True), vehicle(1), "loses: it waits"),
        (vehicle(1, lacking=3), vehicle(1, lacking=1), "gains 2 essential positions"),
        (vehicle(1, lacking=1), vehicle(1, lacking=2), "loses 1 essential position"),
        (vehicle(1, parts=(1,)), vehicle(1, parts=(1,)), "the same"),
        (vehicle(1, parts=(1,)), vehicle(1, parts=(2,)), "as complete, with other parts"),
        (vehicle(1, hours=(4,)), vehicle(1, hours=(4,)), "the same"),
        (
            vehicle(1, parts=(1,)),
            vehicle(1, hours=(18,)),
            "as complete, with 18 hours more of making and repair",
        ),
        (
            vehicle(1, hours=(4, 6)),
            vehicle(1, parts=(1,), hours=(4,)),
            "as complete, with 6 hours less of making and repair",
        ),
    ],
)
def test_vehicle_gains_or_loses(first, second, words):
    (difference,) = compared(outcome(first), outcome(second))

    assert difference.words == words


def test_vehicles_of_one_plan_only_are_named_as_such():
    found = compared(outcome(vehicle(1)), outcome(vehicle(2)))

    assert {one.label: one.words for one in found} == {
        "Wagon 1": "only in the first plan",
        "Wagon 2": "only in the second plan",
    }


@pytest.mark.django_db
def test_outcome_reads_back_as_it_was_kept():
    lay_out_shop()
    best = plan_best_use()
    plan = PlanFactory(outcome=as_record(best))

    read = outcome_of(type(plan).objects.get())

    assert [(v.label, use.code, use.label) for v, use in read.uses] == [
        (str(one), use.position.code, use.candidate.part.label) for one, use in best.uses
    ]
    assert read.vehicles[1].open[0].words == (
        "what would fit goes to Wagon 14; else pattern in hand: 2026.4.3"
    )


@pytest.mark.django_db
def test_outcome_kept_before_works_had_hours_is_read_too():
    lay_out_shop()
    best = plan_best_use()
    kept = as_record(best)
    for one in kept["vehicles"]:
        del one["makes"]
        for use in one["uses"]:
            del use["effort"]

    read = outcome_of(PlanFactory(outcome=kept))

    assert (read.makes, read.repairs, read.effort.words) == ((), (), "none")
    assert len(read.uses) == len(best.uses) > 0


@pytest.mark.django_db
def test_plan_that_waits_has_no_outcome():
    assert outcome_of(PlanFactory()) is None
