"""Components and classes over all vehicles."""

from fractions import Fraction

import pytest

from catalog.queries.balances import balances_of
from catalog.queries.plans import vehicles_to_plan
from tests.factories import ComponentFactory, PartFactory, PositionFactory, VehicleClassFactory
from tests.tramway import lay_out_class, lay_out_shop

pytestmark = pytest.mark.django_db


def row(balance):
    return (
        balance.required,
        balance.fitted,
        balance.coming,
        balance.free,
        balance.repair,
        balance.patterns,
        balance.short,
    )


def test_balance_of_each_component():
    shop = lay_out_shop()
    shop.part("drawhead", usability="repair")
    shop.part("drawhead", usability="unusable")
    shop.part("drawhead", vehicle_class=VehicleClassFactory())
    PartFactory()

    balances = balances_of(vehicles_to_plan())

    assert {b.component.name: row(b) for b in balances.components} == {
        "drawhead": (6, 1, 0, 2, 1, 1, 3),
        "hinge": (6, 0, 0, 9, 0, 0, 0),
        "journal box": (6, 3, 0, 1, 0, 0, 2),
    }


def test_enough_for_whole_vehicles_and_in_parts():
    lay_out_shop()

    supply = balances_of(vehicles_to_plan()).classes[0]

    assert (supply.vehicle_class.designation, supply.vehicles) == ("Class E", 3)
    assert (supply.complete, supply.in_parts) == (1, Fraction(7, 4))
    assert [component.name for component in supply.limiting] == ["drawhead"]


def test_two_halves_are_no_whole_and_a_wooden_pattern_is_no_piece():
    shop = lay_out_class()
    shop.vehicle("Wagon 14")
    for name in ("journal box", "hinge"):
        shop.part(name, quantity=4)
    shop.part("drawhead", usability="pattern", quantity=4)
    for _ in range(2):
        shop.part("drawhead", usability="repair", surviving_share="0.5")

    supply = balances_of(vehicles_to_plan()).classes[0]

    assert (supply.complete, supply.in_parts) == (0, Fraction(1, 2))


def test_what_one_vehicle_has_of_its_own_limits_no_other():
    shop = lay_out_class()
    for label in ("Wagon 14", "Wagon 22"):
        wagon = shop.vehicle(
            label, journal_box=("L1", "R1"), hinge=("HL", "HR"), drawhead=("A", "B")
        )
    PositionFactory(vehicle_class=None, vehicle=wagon, component=ComponentFactory(name="lamp"))

    supply = balances_of(vehicles_to_plan()).classes[0]

    assert (supply.complete, supply.in_parts) == (2, Fraction(2))


def test_class_without_positions_is_not_counted():
    shop = lay_out_class()
    shop.vehicle("Wagon 14")
    shop.components.clear()

    assert [c.vehicle_class for c in balances_of(vehicles_to_plan()).classes] == [
        shop.vehicle_class
    ]
    assert balances_of([]).classes == ()


def test_balances_take_the_same_queries_for_one_vehicle_and_three(django_assert_num_queries):
    lay_out_shop()
    vehicles = vehicles_to_plan()
    balances_of(vehicles[1:])

    with django_assert_num_queries(5):
        balances_of(vehicles[:1])
    with django_assert_num_queries(5):
        balances_of(vehicles)
    with django_assert_num_queries(1):
        balances_of(vehicles)


def test_balances_are_counted_anew_when_a_part_comes_in():
    shop = lay_out_shop()
    before = balances_of(vehicles_to_plan()).components[0].free

    shop.part("drawhead")

    assert (before, balances_of(vehicles_to_plan()).components[0].free) == (2, 3)
