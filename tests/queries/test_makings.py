"""Plans that count on pieces still to be made, from patterns in hand and after drawings."""

from decimal import Decimal

import pytest

from catalog.models import Component, Part, Vehicle
from catalog.queries.makings import CountOn
from catalog.queries.plan_outcomes import outcome_of
from catalog.queries.plan_records import as_record
from catalog.queries.plans import Wishes, plan_best_use
from tests.factories import (
    AccessionFactory,
    ComponentFactory,
    PartyFactory,
    PlanFactory,
    PositionFactory,
)
from tests.tramway import lay_out_class, lay_out_shop

pytestmark = pytest.mark.django_db

PATTERNS = CountOn(patterns=True)


def plan_with(count_on=PATTERNS, vehicles=None, **wishes):
    return plan_best_use(vehicles, wishes=Wishes(count_on=count_on, **wishes))


def sentences(plan):
    return [(one.vehicle.label, one.sentence) for one in plan.vehicles]


def made(plan):
    return [
        f"{make.position.code} of {one.vehicle}: {make.making.words}"
        for one in plan.vehicles
        for make in one.makes
    ]


def kept(plan):
    return outcome_of(PlanFactory(outcome=as_record(plan)))


def test_half_a_drawhead_as_pattern_completes_the_wagon_that_waits_for_one():
    lay_out_shop()
    Component.objects.filter(name="drawhead").update(making_hours=Decimal("18.5"))

    plan = plan_with()

    assert sentences(plan) == [
        ("Wagon 14", "Can be completed."),
        ("Wagon 22", "Can be completed by making 1 drawhead."),
        ("Wagon 31", "Waits for 2 journal boxes."),
    ]
    hours = plan.levels[-1]
    assert (hours.name, hours.value, hours.is_proven) == ("hours of making and repair", 55.5, True)


def test_nothing_is_made_unless_the_plan_counts_on_it():
    lay_out_shop()

    assert made(plan_best_use()) == []


def test_making_that_nobody_has_estimated_counts_as_three_days_and_says_so():
    lay_out_shop()

    outcome = kept(plan_with())

    (work,) = outcome.to_make
    assert work.line.sentence == (
        "make from pattern 2026.4.3, 24 hours, which nobody has estimated"
    )
    assert (work.counted, work.effort.words) == ("3 drawheads", "72 hours, 72 of them assumed")
    assert work.where == ("B of Wagon 22", "A of Wagon 31", "B of Wagon 31")


def test_plan_keeps_contraction_what_is_missing_and_the_terms_of_a_loan():
    lay_out_shop()
    loan = AccessionFactory(
        method="loan", party=PartyFactory(name="Old Level Society"), terms="One set of castings."
    )
    Part.objects.filter(number="2026.4.3").update(accession=loan, material="cast iron")

    (work,) = kept(plan_with()).to_make

    assert work.line.note.startswith("Only 50% of the pattern survives. A casting taken from it")
    assert work.line.note.endswith("What is missing of it must be added to the pattern.")
    assert work.line.is_on_loan
    assert work.line.terms == (
        f"On loan from Old Level Society. Terms of {loan}: One set of castings."
    )


def test_pattern_kept_for_one_vehicle_makes_pieces_for_that_one_only():
    shop = lay_out_shop()
    Part.objects.filter(number="2026.4.3").update(keep_with=shop.vehicles["Wagon 31"])

    plan = plan_with()

    assert dict(sentences(plan))["Wagon 22"] == "Waits for 1 drawhead."
    assert made(plan) == [f"{code} of Wagon 31: make from pattern" for code in "AB"]
    assert kept(plan).to_make[0].line.terms == "Kept for Wagon 31."


def test_pattern_held_back_in_the_plan_is_like_one_that_is_kept():
    shop = lay_out_shop()
    pattern = Part.objects.get(number="2026.4.3")

    plan = plan_with(held={pattern.pk: shop.vehicles["Wagon 31"].pk})

    assert made(plan) == [f"{code} of Wagon 31: make from pattern" for code in "AB"]


def test_own_pattern_of_a_vehicle_goes_before_one_for_all():
    shop = lay_out_shop()
    wagon = shop.vehicles["Wagon 22"]
    shop.part("drawhead", number="2026.4.9", usability="pattern", keep_with=wagon)

    labels = {vehicle.label: make.label for vehicle, make in kept(plan_with()).makes}

    assert labels == {"Wagon 22": "2026.4.9", "Wagon 31": "2026.4.3"}


def test_drawings_and_dimensions_count_only_where_it_is_wished():
    shop = lay_out_shop()
    shop.limits("journal box", "bore", lower_mm="63.5", upper_mm="64.5")

    assert dict(sentences(plan_with()))["Wagon 31"] == "Waits for 2 journal boxes."
    after = plan_with(CountOn(patterns=True, drawings=True))

    assert dict(sentences(after))["Wagon 31"] == (
        "Can be completed by making 2 journal boxes and 2 drawheads."
    )
    assert "L1 of Wagon 31: make after 1 recorded dimension" in made(after)


def test_pattern_goes_before_a_drawing():
    shop = lay_out_shop()
    shop.limits("drawhead", "shank", lower_mm="50")

    plan = plan_with(CountOn(patterns=True, drawings=True))

    assert set(made(plan)) == {
        f"{where}: make from pattern"
        for where in ("B of Wagon 22", "A of Wagon 31", "B of Wagon 31")
    }


def test_what_is_in_hand_goes_first_even_when_it_fits_doubtfully():
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14", 1)
    shop.limits("drawhead", "shank", lower_mm="50")
    shop.part("drawhead", usability="pattern")
    for number in ("2026.4.1", "2026.4.2"):
        shop.part("drawhead", number=number, identification_status="disputed")

    plan = plan_with(vehicles=[wagon])

    assert made(plan) == []
    assert len(plan.vehicles[0].uses) == 2


def test_what_can_be_done_without_is_not_made():
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14", 1)
    lamp = ComponentFactory(name="lamp")
    shop.components["lamp"] = lamp
    PositionFactory(vehicle_class=shop.vehicle_class, component=lamp, code="LP", is_essential=False)
    shop.part("lamp", usability="pattern")

    assert made(plan_with(vehicles=[wagon])) == []


def test_new_piece_is_made_to_suit_where_none_in_hand_mates():
    shop = lay_out_class()
    shop.add_brass()
    wagon = shop.vehicle("Wagon 14")
    for name, mark, mm in (
        *(("journal box", "opening", "60"),) * 2,
        ("brass", "height", "49"),
    ):
        shop.measure(shop.part(name), mark, mm)
    shop.part("brass", usability="pattern", number="2026.4.8")

    assert made(plan_with(vehicles=[wagon])) == ["L1 of Wagon 14: make from pattern"]


def test_first_vehicle_has_what_is_ready_and_the_next_waits_for_the_foundry():
    shop = lay_out_shop()
    Vehicle.objects.filter(pk=shop.vehicles["Wagon 22"].pk).update(restoration_order=0)

    assert made(plan_with())[0] == "B of Wagon 14: make from pattern"


def test_money_and_hours_are_summed_for_each_vehicle_and_over_all():
    shop = lay_out_shop()
    Component.objects.filter(name="drawhead").update(
        making_hours=18, making_cost=Decimal("40.50"), repair_hours=6
    )
    shop.part("drawhead", number="2026.4.6", usability="repair")

    outcome = kept(plan_with(CountOn(repairs=True, patterns=True)))

    assert outcome.effort.words == "42 hours; 81.00 in money, and 1 of 3 works has no price"
    by_vehicle = {one.label: one.effort.words for one in outcome.vehicles}
    assert by_vehicle["Wagon 14"] == "none"
    assert by_vehicle["Wagon 22"] == "6 hours"


def limit_castings(number, left):
    Part.objects.filter(number=number).update(castings_left=left)


def test_no_more_is_made_from_a_pattern_than_its_owner_allows():
    lay_out_shop()
    limit_castings("2026.4.3", 2)

    plan = plan_with()

    assert made(plan) == [
        "B of Wagon 22: make from pattern",
        "A of Wagon 31: make from pattern",
    ]
    terms = kept(plan).to_make[0].line.terms
    assert terms == "2 castings may still be made from it."


def test_pattern_that_no_more_may_be_made_from_makes_nothing():
    lay_out_shop()
    limit_castings("2026.4.3", 0)

    assert made(plan_with()) == []


def test_what_a_limited_pattern_does_not_give_is_made_from_the_next_one():
    shop = lay_out_shop()
    shop.part("drawhead", number="2026.4.9", usability="pattern")
    limit_castings("2026.4.3", 1)
    limit_castings("2026.4.9", 1)

    labels = [make.label for _, make in kept(plan_with()).makes]
    assert sorted(labels) == ["2026.4.3", "2026.4.9"]

    limit_castings("2026.4.9", None)
    labels = [make.label for _, make in kept(plan_with()).makes]
    assert sorted(labels) == ["2026.4.3", "2026.4.9", "2026.4.9"]


def test_castings_that_are_left_go_before_a_drawing_that_costs_the_same():
    shop = lay_out_shop()
    shop.limits("drawhead", "shank", lower_mm="50")
    limit_castings("2026.4.3", 9)

    plan = plan_with(CountOn(patterns=True, drawings=True))

    assert len(made(plan)) == 3
    assert all(one.endswith(": make from pattern") for one in made(plan))


def test_limited_pattern_and_a_drawing_make_the_rest_together():
    shop = lay_out_shop()
    shop.limits("drawhead", "shank", lower_mm="50")
    limit_castings("2026.4.3", 1)

    plan = plan_with(CountOn(patterns=True, drawings=True))

    ways = [one.partition(": ")[2] for one in made(plan)]
    assert sorted(ways) == ["make after 1 recorded dimension"] * 2 + ["make from pattern"]
