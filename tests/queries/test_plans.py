"""The best use of what is in hand over several vehicles."""

from decimal import Decimal

import pytest

from catalog.models import Position, Trial, Vehicle
from catalog.queries.makings import CountOn
from catalog.queries.plans import Wishes, plan_best_use
from tests.factories import (
    FittingFactory,
    RemovalFactory,
    TrialFactory,
)
from tests.tramway import lay_out_class, lay_out_shop

pytestmark = pytest.mark.django_db


def uses(plan):
    return {
        f"{use.position.code} of {vehicle}": use.candidate.part.label for vehicle, use in plan.uses
    }


def test_vehicle_first_in_order_is_completed_and_the_next_waits_for_one_drawhead():
    lay_out_shop()

    plan = plan_best_use()

    assert [(one.vehicle.label, one.sentence) for one in plan.vehicles] == [
        ("Wagon 14", "Can be completed."),
        ("Wagon 22", "Waits for 1 drawhead."),
        ("Wagon 31", "Waits for 2 journal boxes and 2 drawheads."),
    ]
    assert [one.words for one in plan.vehicles[1].open] == [
        "what would fit goes to Wagon 14; else pattern in hand"
    ]
    assert (plan.sentence, plan.levels[0].value, plan.levels[0].bound) == ("1 complete", 1, 1)


def test_order_of_vehicles_decides_who_waits():
    shop = lay_out_shop()
    Vehicle.objects.filter(pk=shop.vehicles["Wagon 22"].pk).update(restoration_order=0)

    plan = plan_best_use()

    assert [(one.vehicle.label, one.sentence) for one in plan.vehicles][:2] == [
        ("Wagon 22", "Can be completed."),
        ("Wagon 14", "Waits for 1 drawhead."),
    ]


def test_vehicle_away_takes_nothing():
    shop = lay_out_shop()
    Vehicle.objects.filter(pk=shop.vehicles["Wagon 14"].pk).update(status="away")

    plan = plan_best_use()

    assert plan.vehicles[0].sentence == "Can be completed."
    assert plan.vehicles[0].vehicle == shop.vehicles["Wagon 22"]


def test_complete_vehicle_says_so():
    shop = lay_out_class()
    shop.vehicle("Wagon 14", journal_box=("L1", "R1"), drawhead=("A", "B"), hinge=("HL", "HR"))

    assert plan_best_use().vehicles[0].sentence == "Complete already."


def reserve(shop, label, *places, state="reserved"):
    for component, code in places:
        FittingFactory(
            vehicle=shop.vehicles[label],
            position=shop.position(component, code),
            part=shop.part(component),
            state=state,
        )


def test_vehicle_whose_parts_are_only_reserved_is_not_complete_already():
    shop = lay_out_class()
    shop.vehicle("Wagon 14", journal_box=("L1", "R1"), drawhead=("A",), hinge=("HL",))
    reserve(shop, "Wagon 14", ("drawhead", "B"))
    reserve(shop, "Wagon 14", ("hinge", "HR"), state="trial")

    (plan,) = plan_best_use().vehicles

    assert plan.is_complete
    assert plan.sentence == "Completed by what is reserved and on trial: fit 2 parts."


def test_part_for_what_may_stay_empty_completes_nothing():
    shop = lay_out_class()
    Position.objects.filter(code="HR").update(is_essential=False)
    shop.vehicle("Wagon 14", journal_box=("L1", "R1"), drawhead=("A", "B"), hinge=("HL",))
    shop.part("hinge", number="2026.4.5")

    plan = plan_best_use()

    assert list(uses(plan).values()) == ["2026.4.5"]
    assert plan.vehicles[0].sentence == "Complete already."


def test_part_kept_for_one_vehicle_goes_to_no_other():
    shop = lay_out_class()
    first, second = shop.vehicle("Wagon 14", 1), shop.vehicle("Wagon 22", 2)
    shop.part("drawhead", number="2026.4.1", keep_with=second)

    plan = plan_best_use([first, second])

    assert list(uses(plan).values()) == ["2026.4.1"]
    assert plan.vehicles[1].uses[0].position.component.name == "drawhead"


def test_part_goes_back_where_it_came_off_when_otherwise_equal():
    shop = lay_out_class()
    first, second = shop.vehicle("Wagon 14"), shop.vehicle("Wagon 22")
    places = [shop.position("drawhead", code) for code in ("A", "B")]
    for number, vehicle in (("2026.4.1", second), ("2026.4.2", first)):
        part = shop.part("drawhead", number=number)
        RemovalFactory(vehicle=vehicle, position=places[0], part=part)

    plan = plan_best_use([first, second])

    came_to = {use.candidate.part.label: vehicle for vehicle, use in plan.uses}
    assert came_to == {"2026.4.1": second, "2026.4.2": first}


def test_part_that_did_not_go_is_sent_elsewhere():
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14")
    part = shop.part("drawhead", number="2026.4.1")
    TrialFactory(
        part=part,
        vehicle=wagon,
        position=shop.position("drawhead", "A"),
        outcome=Trial.Outcome.DID_NOT_GO,
    )

    assert uses(plan_best_use([wagon])) == {"B of Wagon 14": "2026.4.1"}


def test_parts_that_do_not_mate_are_not_put_side_by_side():
    shop = lay_out_class()
    shop.add_brass()
    wagon = shop.vehicle("Wagon 14")
    for name, mark, mm in (("journal box", "opening", "60"), ("brass", "height", "49")):
        shop.measure(shop.part(name), mark, mm)
    mates = shop.part("journal box", number="2026.4.9")
    shop.measure(mates, "opening", "50")

    at_corner = {
        use.position.component.name: use.candidate.part.label
        for _, use in plan_best_use([wagon]).uses
        if use.position.code == "L1"
    }
    assert at_corner["journal box"] == "2026.4.9"


def test_empty_shop_has_a_plan_too():
    plan = plan_best_use()

    assert (plan.vehicles, plan.sentence, plan.is_proven) == ((), "0 complete", True)


def test_of_plans_that_do_equally_well_the_one_with_the_fewest_hours_of_repair_is_taken():
    shop = lay_out_shop()
    drawhead = shop.components["drawhead"]
    drawhead.repair_hours = Decimal("4.5")
    drawhead.save()
    for number in ("2026.4.6", "2026.4.7", "2026.4.8"):
        shop.part("drawhead", number=number, usability="repair")

    plan = plan_best_use(wishes=Wishes(count_on=CountOn(repairs=True)))

    # Five drawheads are wanted and two of them are ready, so three are repaired at 4½ hours each.
    hours = plan.levels[-1]
    assert (hours.name, hours.value, hours.is_proven) == ("hours of making and repair", 13.5, True)
    assert {"2026.4.1", "2026.4.2"} <= set(uses(plan).values())


def test_parts_that_need_repair_do_not_count_unless_it_is_wished():
    shop = lay_out_shop()
    shop.part("drawhead", number="2026.4.6", usability="repair")

    assert "2026.4.6" not in uses(plan_best_use()).values()
    assert "2026.4.6" in uses(plan_best_use(wishes=Wishes(count_on=CountOn(repairs=True)))).values()
