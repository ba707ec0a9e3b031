"""Plans as records: made, applied as reservations in one transaction, and undone."""

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Fitting, Part, Plan
from catalog.operations.fittings import begin_trial, reserve_part
from catalog.operations.plan_work import work_plan
from catalog.operations.plans import apply_plan, make_plan, undo_plan
from catalog.operations.record import withdraw
from catalog.queries.plan_outcomes import outcome_of
from tests.factories import LONG_AGO, PartFactory, PlanFactory, VehicleFactory
from tests.tramway import lay_out_shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop(db):
    return lay_out_shop()


@pytest.fixture
def plan(shop, curator):
    wagon = shop.vehicles["Wagon 14"]
    return work_plan(make_plan({"name": "Wagon 14 first", "numbers": {wagon: 1}}, by=curator))


def reserved():
    active = Fitting.objects.active().filter(state="reserved")
    return sorted(f"{one.part} at {one.position.code} of {one.vehicle}" for one in active)


def test_plan_keeps_what_it_was_made_from(shop, curator):
    wagon, part = shop.vehicles["Wagon 14"], Part.objects.get(number="2026.4.1")

    plan = make_plan(
        {"name": "Try", "order": "weights", "numbers": {wagon: 3}, "held": [(part, wagon)]},
        by=curator,
        at=LONG_AGO,
    )

    assert plan.inputs == {
        "order": "weights",
        "numbers": [[wagon.pk, "Wagon 14", 3]],
        "held": [[part.pk, "2026.4.1", wagon.pk, "Wagon 14"]],
        "seconds": 30,
        "repairs": False,
        "patterns": False,
        "drawings": False,
    }
    assert (plan.state, plan.made_at, plan.outcome) == (Plan.State.WAITING, LONG_AGO, {})


@pytest.mark.parametrize(
    ("numbers", "seconds", "words"),
    [(None, 30, "at least one vehicle"), (0, 30, "begin at 1"), (1, 0, "Between 1 and 600")],
)
def test_plan_that_makes_no_sense_is_refused(curator, numbers, seconds, words):
    given = {} if numbers is None else {VehicleFactory(): numbers}

    with pytest.raises(ValidationError, match=words):
        make_plan({"name": "Try", "numbers": given, "seconds": seconds}, by=curator)


def test_part_held_for_a_vehicle_outside_the_plan_is_refused(curator):
    inside, outside = VehicleFactory(), VehicleFactory(label="Wagon 99")

    with pytest.raises(ValidationError, match="Wagon 99 is not in the plan"):
        make_plan(
            {"name": "Try", "numbers": {inside: 1}, "held": [(PartFactory(), outside)]}, by=curator
        )


def test_part_held_against_the_record_is_refused(curator):
    one, other = VehicleFactory(), VehicleFactory(label="Wagon 99")
    part = PartFactory(keep_with=other)

    with pytest.raises(ValidationError, match="is kept for Wagon 99 already"):
        make_plan({"name": "Try", "numbers": {one: 1}, "held": [(part, one)]}, by=curator)


def test_applied_plan_reserves_all_that_it_sends(plan, curator):
    made = apply_plan(plan, by=curator, at=LONG_AGO)

    assert reserved() == [
        "2026.4.1 at B of Wagon 14",
        "2026.4.4 at R1 of Wagon 14",
        "2026.4.5 at HL of Wagon 14",
        "2026.4.5 at HR of Wagon 14",
    ]
    assert {fitting.plan for fitting in made} == {plan}
    assert plan.applied_at == LONG_AGO
    with pytest.raises(ValidationError, match="is applied already"):
        apply_plan(plan, by=curator)


def test_plan_that_waits_cannot_be_applied(curator):
    with pytest.raises(ValidationError, match="waiting to be worked out: nothing can be applied"):
        apply_plan(PlanFactory(), by=curator)


def test_plan_that_sends_nothing_cannot_be_applied(curator):
    vehicle = VehicleFactory()
    plan = work_plan(make_plan({"name": "Try", "numbers": {vehicle: 1}}, by=curator))

    with pytest.raises(ValidationError, match="there is nothing to reserve"):
        apply_plan(plan, by=curator)


def test_plan_is_refused_whole_with_every_reason_when_the_record_moved_on(plan, shop, curator):
    drawhead = Part.objects.get(number="2026.4.1")
    reserve_part(drawhead, shop.vehicles["Wagon 22"], shop.position("drawhead", "A"), by=curator)
    withdraw(Part.objects.get(number="2026.4.4"), by=curator, reason="entered twice")

    with pytest.raises(ValidationError) as refusal:
        apply_plan(plan, by=curator)

    told = refusal.value.messages
    assert told[0].startswith("The record has moved on")
    assert any("2026.4.1 is already at A of Wagon 22" in words for words in told)
    assert any("2026.4.4 is withdrawn: entered twice" in words for words in told)
    assert reserved() == ["2026.4.1 at A of Wagon 22"]
    plan.refresh_from_db()
    assert plan.applied_at is None


def test_plan_is_refused_when_a_part_was_measured_and_does_not_fit(plan, shop, curator):
    shop.limits("journal box", "bore", lower_mm="63.5", upper_mm="64.5")
    shop.measure(Part.objects.get(number="2026.4.4"), "bore", "76.2")

    with pytest.raises(ValidationError, match="at R1 of Wagon 14"):
        apply_plan(plan, by=curator)

    assert reserved() == []


def test_plan_is_refused_when_a_position_was_dropped(plan, shop, curator):
    shop.position("hinge", "HL").delete()

    with pytest.raises(ValidationError, match="HL of Wagon 14 is a position no more"):
        apply_plan(plan, by=curator)


def test_undoing_gives_up_what_nobody_touched_and_leaves_the_rest(plan, shop, curator):
    apply_plan(plan, by=curator)
    box = Part.objects.get(number="2026.4.4")
    begin_trial(box, shop.vehicles["Wagon 14"], shop.position("journal box", "R1"), by=curator)

    assert undo_plan(plan, by=curator) == (3, 1)

    assert reserved() == []
    assert Fitting.objects.active().get(part=box).state == Fitting.State.TRIAL
    with pytest.raises(ValidationError, match="is not applied"):
        undo_plan(plan, by=curator)


def test_plan_undone_in_part_reserves_what_is_left_and_leaves_what_was_touched(plan, shop, curator):
    apply_plan(plan, by=curator)
    box = Part.objects.get(number="2026.4.4")
    begin_trial(box, shop.vehicles["Wagon 14"], shop.position("journal box", "R1"), by=curator)
    undo_plan(plan, by=curator)

    made = apply_plan(plan, by=curator)

    assert len(made) == 3
    assert Fitting.objects.active().get(part=box).state == Fitting.State.TRIAL


def test_plan_of_which_everything_stands_has_nothing_left_to_reserve(plan, curator):
    for fitting in apply_plan(plan, by=curator):
        begin_trial(fitting.part, fitting.vehicle, fitting.position, by=curator)
    undo_plan(plan, by=curator)

    with pytest.raises(ValidationError, match="nothing is left to reserve"):
        apply_plan(plan, by=curator)


def test_undone_plan_can_be_applied_again(plan, curator):
    apply_plan(plan, by=curator)
    before = reserved()
    undo_plan(plan, by=curator)

    apply_plan(plan, by=curator)

    assert reserved() == before


def test_order_weights_and_held_parts_decide_who_is_served(shop, curator):
    first, second = shop.vehicles["Wagon 14"], shop.vehicles["Wagon 22"]
    parts = [Part.objects.get(number=number) for number in ("2026.4.1", "2026.4.2")]

    def completed(**values):
        plan = make_plan({"name": "Try", **values}, by=curator)
        return [one.label for one in outcome_of(work_plan(plan)).vehicles if one.is_complete]

    assert completed(numbers={first: 1, second: 2}) == ["Wagon 14"]
    assert completed(numbers={first: 2, second: 1}) == ["Wagon 22"]
    assert completed(numbers={first: 1, second: 5}, order="weights") == ["Wagon 22"]
    held = [(part, second) for part in parts]
    assert completed(numbers={first: 1, second: 2}, held=held) == ["Wagon 22"]


def test_plan_that_counts_on_repairs_reserves_what_has_to_be_repaired_first(shop, curator):
    shop.part("drawhead", number="2026.4.6", usability="repair", defect="lug cracked")
    wagons = {shop.vehicles[name]: place for place, name in enumerate(("Wagon 14", "Wagon 22"), 1)}
    without = work_plan(make_plan({"name": "As it is", "numbers": wagons}, by=curator))
    told = {"name": "With repairs", "numbers": wagons, "repairs": True}

    plan = work_plan(make_plan(told, by=curator))
    apply_plan(plan, by=curator)

    assert (outcome_of(without).complete, outcome_of(plan).complete) == (1, 2)
    repaired = [use for _, use in outcome_of(plan).uses if use.label == "2026.4.6"]
    assert [use.reason.startswith("Repair it first (lug cracked).") for use in repaired] == [True]
    assert "2026.4.6" in " ".join(reserved())


def with_castings(shop, curator, *labels):
    numbers = {shop.vehicles[label]: place for place, label in enumerate(labels, 1)}
    values = {"name": "Castings", "numbers": numbers, "patterns": True}
    return work_plan(make_plan(values, by=curator))


def test_applying_reserves_what_is_in_hand_and_records_nothing_of_what_is_to_be_made(shop, curator):
    plan = with_castings(shop, curator, "Wagon 14", "Wagon 22")
    before = Part.objects.count()

    apply_plan(plan, by=curator)

    assert [make.label for _, make in outcome_of(plan).makes] == ["2026.4.3"]
    assert not any("2026.4.3" in one for one in reserved())
    assert len(reserved()) == len(outcome_of(plan).uses)
    assert Part.objects.count() == before
    assert undo_plan(plan, by=curator) == (len(outcome_of(plan).uses), 0)


def test_plan_is_refused_when_its_pattern_is_gone(shop, curator):
    plan = with_castings(shop, curator, "Wagon 14", "Wagon 22")
    withdraw(Part.objects.get(number="2026.4.3"), by=curator, reason="gave it back")

    with pytest.raises(ValidationError, match="drawhead at B of Wagon 22: it cannot be made"):
        apply_plan(plan, by=curator)

    assert reserved() == []


def test_plan_is_refused_when_it_makes_more_than_may_be_made_by_now(shop, curator):
    plan = with_castings(shop, curator, "Wagon 14", "Wagon 22", "Wagon 31")
    Part.objects.filter(number="2026.4.3").update(castings_left=1)

    told = r"2026\.4\.3: the plan makes 3 from it, and 1 casting may still be made"
    with pytest.raises(ValidationError, match=told):
        apply_plan(plan, by=curator)


def test_plan_is_refused_when_what_was_to_be_made_is_there_by_now(shop, curator):
    plan = with_castings(shop, curator, "Wagon 14", "Wagon 22")
    (make,) = outcome_of(plan).makes
    new = shop.part("drawhead", number="2026.4.9")
    reserve_part(
        new, shop.vehicles[make[0].label], shop.position("drawhead", make[1].code), by=curator
    )

    with pytest.raises(ValidationError, match="9 is reserved there now, so none has to be made"):
        apply_plan(plan, by=curator)


def test_plan_that_only_makes_has_nothing_to_reserve(shop, curator):
    Part.objects.exclude(usability="pattern").filter(fittings=None).delete()
    plan = with_castings(shop, curator, "Wagon 31")

    with pytest.raises(ValidationError, match="What it counts on to be made is no part yet"):
        apply_plan(plan, by=curator)
