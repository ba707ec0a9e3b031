"""Which open positions a part could fill."""

import pytest

from catalog.queries.part_fits import positions_for
from tests.factories import (
    ComponentFactory,
    FittingFactory,
    PartFactory,
    PositionFactory,
    VehicleClassFactory,
    VehicleFactory,
)
from tests.tramway import lay_out_class, lay_out_shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop(db):
    return lay_out_shop()


def told(part):
    return [f"{one.position.code} of {one.vehicle}" for one in positions_for(part)]


def test_open_positions_of_all_vehicles_in_their_order(shop):
    part = shop.part("drawhead")

    assert told(part) == [
        "B of Wagon 14",
        "A of Wagon 22",
        "B of Wagon 22",
        "A of Wagon 31",
        "B of Wagon 31",
    ]


def test_best_fit_comes_first_and_a_misfit_last_with_its_reason(shop):
    shop.limits("drawhead", "shank", lower_mm="70", upper_mm="72")
    part = shop.part("drawhead")
    shop.measure(part, "shank", "90")

    found = positions_for(part)

    assert {one.candidate.state for one in found} == {"misfit"}
    assert found[0].candidate.reason == (
        "Does not fit: shank 90.000 ± 0.050 mm against 70 to 72 mm."
    )


def test_part_that_fills_nothing(shop):
    unknown = PartFactory()
    unusable = shop.part("drawhead", usability="unusable")
    used_up = shop.part("drawhead")
    FittingFactory(
        part=used_up,
        vehicle=shop.vehicles["Wagon 31"],
        position=shop.position("drawhead", "A"),
    )
    foreign = shop.part("drawhead", vehicle_class=VehicleClassFactory())

    assert [told(part) for part in (unknown, unusable, used_up, foreign)] == [[], [], [], []]


def test_part_kept_for_a_vehicle_fills_its_positions_only(shop):
    part = shop.part("drawhead", keep_with=shop.vehicles["Wagon 22"])

    assert told(part) == ["A of Wagon 22", "B of Wagon 22"]


def test_part_of_a_narrower_kind_fills_the_wider_position():
    shop = lay_out_class()
    shop.vehicle("Wagon 14")
    shop.components["link drawhead"] = ComponentFactory(broader=shop.components["drawhead"])

    assert told(shop.part("link drawhead")) == ["A of Wagon 14", "B of Wagon 14"]


def test_position_added_to_one_vehicle_and_those_of_a_base_class_count():
    shop = lay_out_class()
    variant = VehicleClassFactory(based_on=shop.vehicle_class)
    VehicleFactory(label="Wagon 40", vehicle_class=variant)
    alone = VehicleFactory(label="Trolley")
    PositionFactory(
        vehicle=alone, vehicle_class=None, component=shop.components["drawhead"], code="Z"
    )

    assert told(shop.part("drawhead")) == ["A of Wagon 40", "B of Wagon 40"]
    assert told(shop.part("drawhead", vehicle_class=None)) == [
        "Z of Trolley",
        "A of Wagon 40",
        "B of Wagon 40",
    ]


def test_queries_are_the_same_for_one_vehicle_and_three(shop, django_assert_num_queries):
    part = shop.part("drawhead", keep_with=shop.vehicles["Wagon 22"])
    with django_assert_num_queries(16):
        positions_for(part)
    part.keep_with = None

    with django_assert_num_queries(16):
        positions_for(part)
