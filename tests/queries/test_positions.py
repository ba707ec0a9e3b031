"""Which positions a vehicle has, and within which limits."""

from decimal import Decimal

import pytest

from catalog.models import Deviation
from catalog.queries.positions import limits_of, positions_of, positions_of_vehicles
from tests.factories import (
    CharacteristicFactory,
    DeviationFactory,
    PositionFactory,
    SpecificationFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def wagon_class():
    kind = VehicleClassFactory()
    PositionFactory(vehicle_class=kind, code="L1", sequence=2)
    PositionFactory(vehicle_class=kind, code="A1", sequence=1)
    return kind


def codes(vehicle):
    return [position.code for position in positions_of(vehicle)]


def test_positions_are_those_of_the_class_in_order(wagon_class):
    assert codes(VehicleFactory(vehicle_class=wagon_class)) == ["A1", "L1"]


def test_class_takes_over_positions_of_its_base_and_leaves_out_what_it_drops(wagon_class):
    brake = VehicleClassFactory(based_on=wagon_class)
    PositionFactory(vehicle_class=brake, code="BK", sequence=3)
    left_out = wagon_class.positions.get(code="L1")
    DeviationFactory(vehicle=None, vehicle_class=brake, kind="dropped", position=left_out)

    assert codes(VehicleFactory(vehicle_class=brake)) == ["A1", "BK"]
    assert codes(VehicleFactory(vehicle_class=wagon_class)) == ["A1", "L1"]


def test_vehicle_adds_and_drops_positions_of_its_own(wagon_class):
    vehicle = VehicleFactory(vehicle_class=wagon_class)
    PositionFactory(vehicle_class=None, vehicle=vehicle, code="S1", sequence=9)
    DeviationFactory(
        vehicle=vehicle,
        kind=Deviation.Kind.DROPPED,
        position=wagon_class.positions.get(code="A1"),
    )

    assert codes(vehicle) == ["L1", "S1"]


def test_positions_of_many_vehicles_take_three_queries(wagon_class, django_assert_num_queries):
    vehicles = VehicleFactory.create_batch(5, vehicle_class=wagon_class)

    with django_assert_num_queries(3):
        found = positions_of_vehicles(vehicles)

    assert {len(positions) for positions in found.values()} == {2}


def test_narrowest_limits_hold(wagon_class):
    position = wagon_class.positions.get(code="L1")
    bore = CharacteristicFactory(component=position.component)
    vehicle = VehicleFactory(vehicle_class=wagon_class)
    spec = {"vehicle_class": wagon_class, "characteristic": bore}
    SpecificationFactory(**spec, lower_mm=Decimal(63), upper_mm=Decimal(64))
    SpecificationFactory(**spec, vehicle=vehicle, lower_mm=Decimal(62), upper_mm=Decimal(66))

    limits = limits_of(vehicle)[position.pk]

    assert [(row.lower_mm, row.upper_mm) for row in limits] == [(Decimal(62), Decimal(66))]


def test_limits_come_down_from_the_base_class(wagon_class):
    position = wagon_class.positions.get(code="L1")
    bore = CharacteristicFactory(component=position.component)
    SpecificationFactory(vehicle_class=wagon_class, characteristic=bore)
    vehicle = VehicleFactory(vehicle_class=VehicleClassFactory(based_on=wagon_class))

    assert [row.characteristic for row in limits_of(vehicle)[position.pk]] == [bore]
