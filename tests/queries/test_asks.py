"""What to ask others for so that a vehicle can be finished."""

import pytest

from catalog.queries.asks import asks_of
from catalog.queries.plans import vehicles_to_plan
from catalog.queries.routes import needs_and_routes
from catalog.queries.shop_plans import plan_of_shop
from tests.factories import WantFactory
from tests.tramway import lay_out_class, lay_out_shop

pytestmark = pytest.mark.django_db


def asks_for(vehicle, *, is_planned=True):
    plans = plan_of_shop(vehicles_to_plan()).vehicles if is_planned else {}
    return asks_of(*needs_and_routes(vehicle), plans.get(vehicle.pk))


def test_what_another_vehicle_is_served_first_is_asked_for_too():
    shop = lay_out_class()
    shop.vehicle("Wagon 14", 1)
    later = shop.vehicle("Wagon 31", 2)
    shop.part("hinge", quantity=2)

    planned = {ask.words: ask.remark for ask in asks_for(later)}
    alone = {ask.words for ask in asks_for(later, is_planned=False)}

    assert planned["2 hinges"] == "What would fit goes to Wagon 14."
    assert "2 hinges" not in alone


def test_other_ways_stand_beside_asking():
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14", 1)
    shop.part("hinge", usability="pattern")

    found = {ask.words: ask.remark for ask in asks_for(wagon)}

    assert found["2 hinges"] == "Or make from a pattern."


def test_want_that_is_written_is_named_and_else_the_page_to_write_one():
    shop = lay_out_shop()
    wagon = shop.vehicles["Wagon 31"]
    want = WantFactory(component=shop.components["drawhead"], vehicle=wagon, quantity=2)

    found = {ask.component.name: ask for ask in asks_for(wagon)}

    assert (found["drawhead"].wants, found["drawhead"].url) == ((want,), "")
    assert found["drawhead"].standing == "a want is written, which only members see"
    box = found["journal box"]
    assert (box.wants, box.standing) == ((), "")
    assert box.url.startswith("/wants/add/?vehicle=wagon-31&position=")


def test_want_for_fewer_leaves_the_rest_to_be_asked_for():
    shop = lay_out_shop()
    wagon, left = shop.vehicles["Wagon 31"], shop.position("drawhead", "A")
    WantFactory(
        component=shop.components["drawhead"],
        vehicle=wagon,
        position=shop.position("drawhead", "B"),
        is_published=True,
    )

    ask = next(ask for ask in asks_for(wagon) if ask.component.name == "drawhead")

    assert (ask.words, ask.standing) == ("2 drawheads", "asked for 1 of 2 in public")
    assert (ask.to_ask, ask.url) == (
        "1 more",
        f"/wants/add/?vehicle=wagon-31&position={left.pk}",
    )


@pytest.mark.parametrize(("has_vehicle", "whom"), [(True, "Wagon 22"), (False, "any vehicle")])
def test_want_for_another_vehicle_is_told_and_asks_for_nothing_here(has_vehicle, whom):
    shop = lay_out_shop()
    drawhead, other = shop.components["drawhead"], shop.vehicles["Wagon 22"]
    WantFactory(component=drawhead, vehicle=other if has_vehicle else None, is_published=True)

    found = asks_for(shop.vehicles["Wagon 31"])

    ask = next(ask for ask in found if ask.component == drawhead)
    assert (ask.wants, ask.elsewhere) == ((), f"Asked for, for {whom}.")
    assert (ask.to_ask, ask.url.count("position=")) == ("2 drawheads", 2)


def test_vehicle_that_can_be_completed_asks_for_nothing():
    shop = lay_out_shop()

    assert asks_for(shop.vehicles["Wagon 14"]) == ()
