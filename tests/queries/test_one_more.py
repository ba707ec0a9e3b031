"""What one more piece would change."""

import pytest

from catalog.queries.one_more import shopping_for, what_more
from catalog.queries.plans import vehicles_to_plan
from catalog.queries.shop_plans import plan_of_shop
from tests.tramway import lay_out_class, lay_out_shop

pytestmark = pytest.mark.django_db


def gains(found):
    return {one.component.name: one.gains for one in found.gains}


def test_one_more_drawhead_completes_the_next_wagon():
    shop = lay_out_shop()

    found = what_more()

    assert gains(found) == {"drawhead": (1, 1, 1), "hinge": (0, 0, 0), "journal box": (0, 0, 0)}
    assert found.shortest.sentence == "One more drawhead would complete Wagon 22."
    assert found.complete == (shop.vehicles["Wagon 14"],)
    assert found.is_proven


def test_gain_is_found_by_planning_again_and_not_by_counting():
    shop = lay_out_class()
    for label in ("Wagon 14", "Wagon 22"):
        shop.vehicle(label, journal_box=("L1", "R1"), hinge=("HL", "HR"), drawhead=("A",))

    assert gains(what_more())["drawhead"] == (1, 2, 2)


def test_list_for_one_vehicle_leaves_to_completed_ones_what_they_get():
    shop = lay_out_shop()

    found = shopping_for(shop.vehicles["Wagon 31"])

    assert {str(component): count for component, count in found.pieces} == {
        "journal box": 2,
        "drawhead": 1,
    }


def test_vehicle_that_the_plan_completes_needs_nothing():
    shop = lay_out_shop()

    found = shopping_for(shop.vehicles["Wagon 14"])

    assert (found.length, found.sentence) == (0, "What is in hand completes Wagon 14.")


def test_vehicle_away_is_told_for_too():
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14", journal_box=("L1", "R1"), hinge=("HL", "HR"))
    type(wagon).objects.filter(pk=wagon.pk).update(status="away")

    found = shopping_for(type(wagon).objects.get(pk=wagon.pk))

    assert found.sentence == "With 2 drawheads more, Wagon 14 would be complete."


def test_next_list_is_the_shortest_of_all():
    lay_out_shop()

    assert plan_of_shop(vehicles_to_plan()).next_step.vehicle.label == "Wagon 22"


def test_empty_shop_has_nothing_to_say():
    found = what_more()

    assert (found.gains, found.lists, found.shortest) == ((), (), None)
    assert plan_of_shop([]).next_step is None
