"""Vehicles as strips: their states, what blocks them, and where it stands on the drawing."""

import pytest

from catalog.models import Drawing, PositionSpot
from catalog.queries.needs import needs_of_shop, needs_of_vehicles
from catalog.queries.plans import vehicles_to_plan
from catalog.queries.shop_plans import plan_of_shop
from catalog.queries.strips import strips_of
from tests.factories import (
    ComponentFactory,
    FittingFactory,
    PhotoFactory,
    PositionFactory,
    VehicleFactory,
)
from tests.tramway import lay_out_class, lay_out_shop

pytestmark = pytest.mark.django_db


def positions(vehicle, *codes, component="hinge", **values):
    kind = ComponentFactory(name=component)
    return [
        PositionFactory(vehicle_class=vehicle.vehicle_class, component=kind, code=code, **values)
        for code in codes
    ]


def strips(*vehicles):
    return strips_of(vehicles, needs_of_vehicles(vehicles))


def test_strip_counts_essential_positions_by_state():
    vehicle = VehicleFactory()
    first, second, _ = positions(vehicle, "L1", "R1", "L2")
    positions(vehicle, "X1", component="lamp", is_essential=False)
    FittingFactory(vehicle=vehicle, position=first, state="fitted")
    FittingFactory(vehicle=vehicle, position=second, state="trial")

    (strip,) = strips(vehicle)

    assert strip.counts == (("fitted", 1), ("trial", 1), ("nothing", 1))
    assert strip.blocking_words == "hinge"
    assert strip.outlook == "1 need blocks it, were it alone in the shop"


def test_strip_names_four_kinds_that_block_and_counts_the_others():
    vehicle = VehicleFactory()
    for name in ("latch", "drawhead", "brass", "spring", "door"):
        positions(vehicle, "A", component=name)
    positions(vehicle, "L1", "R1")

    (strip,) = strips(vehicle)

    assert strip.blocking_words == "latch, drawhead, brass, spring and 3 more"


def test_strip_of_a_whole_vehicle_is_complete():
    vehicle = VehicleFactory()
    (place,) = positions(vehicle, "L1")
    FittingFactory(vehicle=vehicle, position=place, state="fitted")

    (strip,) = strips(vehicle)

    assert (strip.outlook, strip.blocking_words) == ("complete", "")


def test_strip_has_the_small_drawing_of_its_class_with_states():
    vehicle = VehicleFactory()
    (place,) = positions(vehicle, "L1")
    picture = PhotoFactory(part=None, vehicle_class=vehicle.vehicle_class, width=800, height=600)
    drawing = Drawing.objects.create(
        vehicle_class=vehicle.vehicle_class, title="Side elevation", picture=picture
    )
    PositionSpot.objects.create(position=place, drawing=drawing, x=0.25, y=0.5)
    FittingFactory(vehicle=vehicle, position=place)

    (strip,) = strips(vehicle)

    assert (strip.plate.width, strip.plate.height) == (320, 240)
    (spot,) = strip.plate.spots
    assert (spot.x, spot.y, spot.state) == (0.25, 0.5, "fitted")


def planned_strips():
    vehicles = vehicles_to_plan()
    found = strips_of(vehicles, needs_of_shop(vehicles), plan_of_shop(vehicles).vehicles)
    return {strip.needs.vehicle.label: strip for strip in found}


def test_strips_never_promise_one_piece_to_two_vehicles():
    lay_out_shop()

    told = {
        label: (strip.outlook, strip.blocking_words) for label, strip in planned_strips().items()
    }

    assert told == {
        "Wagon 14": ("what is in hand completes it, by the plan for all vehicles", ""),
        "Wagon 22": ("1 need blocks it, by the plan for all vehicles", "drawhead"),
        "Wagon 31": (
            "4 needs block it, by the plan for all vehicles",
            "2 × journal box, 2 × drawhead",
        ),
    }


def test_strip_says_which_vehicles_are_served_before_it():
    lay_out_shop()

    told = {label: strip.served_before for label, strip in planned_strips().items()}

    assert told == {
        "Wagon 14": "",
        "Wagon 22": "What would fit it goes to Wagon 14.",
        "Wagon 31": "What would fit them goes to Wagon 14 and Wagon 22.",
    }


def test_strip_says_that_what_is_reserved_completes_it():
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14", journal_box=("L1", "R1"), drawhead=("A", "B"), hinge=("HL",))
    place, part = shop.position("hinge", "HR"), shop.part("hinge")
    FittingFactory(vehicle=wagon, position=place, part=part, state="reserved")

    strip = planned_strips()["Wagon 14"]

    assert strip.outlook == "what is reserved completes it"
    assert strip.needs.outlook == "what is reserved fills the rest"


def test_strip_of_a_vehicle_that_is_away_is_not_planned_for():
    shop = lay_out_shop()
    wagon = shop.vehicles["Wagon 14"]
    wagon.status = "away"
    wagon.save()

    assert wagon.pk not in plan_of_shop([*shop.vehicles.values()]).vehicles
    (strip,) = strips(wagon)
    assert strip.outlook == "away from the group: the plan leaves it out"
    assert strip.blocking_words == ""
