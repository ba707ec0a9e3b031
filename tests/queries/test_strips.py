"""Vehicles as strips: what is filled, what is open, and where it stands on the drawing."""

import pytest

from catalog.models import Drawing, PositionSpot
from catalog.queries.strips import strips_of
from tests.factories import (
    ComponentFactory,
    FittingFactory,
    PhotoFactory,
    PositionFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


def positions(vehicle, *codes, component="hinge", **values):
    kind = ComponentFactory(name=component)
    return [
        PositionFactory(vehicle_class=vehicle.vehicle_class, component=kind, code=code, **values)
        for code in codes
    ]


def test_strip_counts_essential_positions_only():
    vehicle = VehicleFactory()
    first, second, _ = positions(vehicle, "L1", "R1", "L2")
    positions(vehicle, "X1", component="lamp", is_essential=False)
    FittingFactory(vehicle=vehicle, position=first, state="fitted")
    FittingFactory(vehicle=vehicle, position=second, state="trial")

    (strip,) = strips_of([vehicle])

    assert (strip.completeness.filled, strip.completeness.essential) == (1, 3)
    assert strip.counts == (("fitted", 1), ("trial", 1), ("nothing", 1))
    assert strip.open == (("hinge", 1),)


def test_strip_names_four_kinds_that_are_open_and_counts_the_others():
    vehicle = VehicleFactory()
    positions(vehicle, "L1", "R1")
    for name in ("latch", "drawhead", "brass", "spring", "door"):
        positions(vehicle, "A", component=name)

    (strip,) = strips_of([vehicle])

    assert strip.open_words == "latch, drawhead, brass, spring and 3 more"


def test_strip_takes_states_that_somebody_else_has_found():
    vehicle = VehicleFactory()
    (place,) = positions(vehicle, "L1")

    (strip,) = strips_of([vehicle], {vehicle.pk: {place.pk: "pattern"}})

    assert strip.counts == (("pattern", 1),)


def test_strip_has_the_small_drawing_of_its_class_with_states():
    vehicle = VehicleFactory()
    (place,) = positions(vehicle, "L1")
    picture = PhotoFactory(part=None, vehicle_class=vehicle.vehicle_class, width=800, height=600)
    drawing = Drawing.objects.create(
        vehicle_class=vehicle.vehicle_class, title="Side elevation", picture=picture
    )
    PositionSpot.objects.create(position=place, drawing=drawing, x=0.25, y=0.5)
    FittingFactory(vehicle=vehicle, position=place)

    (strip,) = strips_of([vehicle])

    assert (strip.plate.width, strip.plate.height) == (320, 240)
    (spot,) = strip.plate.spots
    assert (spot.x, spot.y, spot.state) == (0.25, 0.5, "fitted")


def test_strips_take_the_same_queries_for_one_and_three(django_assert_num_queries):
    one = VehicleFactory()
    three = [one, *VehicleFactory.create_batch(2)]
    for vehicle in three:
        positions(vehicle, "L1", component=f"hinge {vehicle.pk}")

    with django_assert_num_queries(6):
        strips_of([one])
    with django_assert_num_queries(6):
        strips_of(three)
