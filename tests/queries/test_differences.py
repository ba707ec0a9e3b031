"""Two vehicles side by side."""

from decimal import Decimal

import pytest

from catalog.queries.differences import compare
from tests.factories import (
    CharacteristicFactory,
    DeviationFactory,
    FittingFactory,
    PhotoFactory,
    PositionFactory,
    SpecificationFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def pair():
    left = VehicleFactory(label="Kestrel")
    return left, VehicleFactory(label="Dunlin", vehicle_class=left.vehicle_class)


def test_vehicles_as_their_class_are_alike(pair):
    PositionFactory(vehicle_class=pair[0].vehicle_class, code="L1")

    found = compare(*pair)

    assert (len(found.different), len(found.alike)) == (0, 1)


def test_dropped_position_is_on_one_side_only_with_its_reason(pair):
    position = PositionFactory(vehicle_class=pair[0].vehicle_class, code="S1")
    row = DeviationFactory(
        vehicle=pair[1], kind="dropped", position=position, reason="no sand pipes"
    )

    (found,) = compare(*pair).different

    assert (found.code, found.left.has_position, found.right.has_position) == ("S1", True, False)
    assert found.right.differences == (row,)


def test_other_limits_of_one_vehicle_are_told(pair):
    position = PositionFactory(vehicle_class=pair[0].vehicle_class)
    length = CharacteristicFactory(component=position.component, name="length")
    kind = pair[0].vehicle_class
    SpecificationFactory(vehicle_class=kind, characteristic=length)
    SpecificationFactory(
        vehicle_class=kind,
        characteristic=length,
        vehicle=pair[0],
        lower_mm=None,
        upper_mm=Decimal("70"),
    )

    (found,) = compare(*pair).different

    assert found.left.limits == ("length at most 70 mm",)
    assert found.right.limits == ("length 63–64 mm",)


def test_what_differs_at_no_position_is_noted(pair):
    row = DeviationFactory(vehicle=pair[0])

    found = compare(*pair)

    assert (found.left_noted, found.right_noted, found.different) == ((row,), (), ())


def test_parts_at_a_position_are_shown_with_their_photos(pair):
    position = PositionFactory(vehicle_class=pair[0].vehicle_class)
    fitting = FittingFactory(vehicle=pair[0], position=position)
    photo = PhotoFactory(part=fitting.part, is_main=True)

    (found,) = compare(*pair).alike

    assert (found.left.part, found.left.photo, found.right.part) == (fitting.part, photo, None)
