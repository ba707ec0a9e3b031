"""The sizes of a component's pieces in hand beside the limits that hold for it."""

from decimal import Decimal

import pytest

from catalog.queries.sizes_in_hand import sizes_in_hand
from tests.factories import (
    CharacteristicFactory,
    MeasurementFactory,
    PartFactory,
    PositionFactory,
    SpecificationFactory,
    VehicleClassFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def diameter():
    return CharacteristicFactory(name="journal diameter")


def measured(diameter, number, mm, uncertainty="0.05"):
    part = PartFactory(number=number, number_sort=number)
    sizes = {"value_mm": Decimal(mm), "uncertainty_mm": Decimal(uncertainty)}
    MeasurementFactory(part=part, characteristic=diameter, name=diameter.name, **sizes)
    return part


def test_pieces_are_told_smallest_first_with_whose_limits_they_keep(diameter):
    small = VehicleClassFactory(designation="E")
    large = VehicleClassFactory(designation="K")
    SpecificationFactory(vehicle_class=small, characteristic=diameter)
    limits = {"lower_mm": Decimal(75), "upper_mm": Decimal("76.2")}
    SpecificationFactory(vehicle_class=large, characteristic=diameter, **limits)
    measured(diameter, "2026.1.2", "76.2", "0.5")
    measured(diameter, "2026.1.1", "63.5")
    measured(diameter, "2026.1.3", "70")

    (spread,) = sizes_in_hand(diameter.component)

    assert [(one.label, one.keeps, one.may_keep) for one in spread.sized] == [
        ("2026.1.1", (str(small),), ()),
        ("2026.1.3", (), ()),
        ("2026.1.2", (), (str(large),)),
    ]
    assert (spread.within(str(small)), spread.doubtful(str(large))) == (1, 1)


def test_a_worn_piece_keeps_the_limits_when_worn(diameter):
    worn = {"worn_lower_mm": Decimal(60), "worn_upper_mm": Decimal(64)}
    limits = SpecificationFactory(characteristic=diameter, **worn)
    measured(diameter, "2026.1.1", "61")

    (spread,) = sizes_in_hand(diameter.component)

    assert [one.keeps for one in spread.sized] == [(str(limits.vehicle_class),)]
    assert [one.is_wider_when_worn for one in spread.limits] == [True]


def test_repeats_of_one_piece_are_one_size(diameter):
    part = measured(diameter, "2026.1.1", "63.4")
    MeasurementFactory(part=part, characteristic=diameter, value_mm=Decimal("63.6"))

    (spread,) = sizes_in_hand(diameter.component)

    assert len(spread.sized) == 1
    assert sum(spread.counts) == 1


def test_limits_of_a_position_say_where_they_hold(diameter):
    position = PositionFactory(component=diameter.component, code="L1")
    narrowed = {"vehicle_class": position.vehicle_class, "position": position}
    SpecificationFactory(characteristic=diameter, **narrowed)

    (spread,) = sizes_in_hand(diameter.component)

    assert [one.owner for one in spread.limits] == [f"{position.vehicle_class} at L1"]


def test_every_size_stands_on_the_rule(diameter):
    SpecificationFactory(characteristic=diameter, lower_mm=None)
    for number in range(3):
        measured(diameter, f"2026.1.{number + 1}", str(50 + 10 * number))

    (spread,) = sizes_in_hand(diameter.component)

    places = [spread.place(one.measured.value) for one in spread.sized]
    assert places == sorted(places)
    assert 0 < places[0] < places[-1] < 1
    assert sum(spread.counts) == 3


def test_sizes_take_the_same_queries_for_one_piece_and_for_three(
    diameter, django_assert_num_queries
):
    SpecificationFactory(characteristic=diameter)
    measured(diameter, "2026.1.1", "63.5")
    with django_assert_num_queries(4):
        sizes_in_hand(diameter.component)
    measured(diameter, "2026.1.2", "63.6")
    measured(diameter, "2026.1.3", "63.7")

    with django_assert_num_queries(4):
        sizes_in_hand(diameter.component)
