"""Vehicles are recorded once, changed with care, and put in order."""

import datetime as dt

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Position, Vehicle
from catalog.operations.vehicles import (
    add_own_position,
    change_vehicle,
    leave_restoration_order,
    move_in_restoration_order,
    record_difference,
    record_vehicle,
    set_restoration_order,
)
from tests.factories import (
    ComponentFactory,
    FittingFactory,
    PositionFactory,
    SourceFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


def order():
    found = Vehicle.objects.filter(restoration_order__isnull=False)
    return [(vehicle.label, vehicle.restoration_order) for vehicle in found]


def test_vehicle_needs_only_label_and_class(curator):
    kind = VehicleClassFactory()

    vehicle = record_vehicle({"label": " Wagon  14 ", "vehicle_class": kind}, by=curator)

    assert (vehicle.label, vehicle.slug, vehicle.status) == ("Wagon 14", "wagon-14", "stored")
    assert vehicle.history.get().history_user == curator


def test_vehicle_reads_when_it_was_built(curator):
    told = {"label": "Kestrel", "vehicle_class": VehicleClassFactory(), "date_text": "1899"}

    vehicle = record_vehicle(told, by=curator)

    assert vehicle.date_earliest == dt.date(1899, 1, 1)


def test_vehicles_of_like_names_get_different_addresses(curator):
    kind = VehicleClassFactory()

    slugs = [
        record_vehicle({"label": label, "vehicle_class": kind}, by=curator).slug
        for label in ("Wagon 14", "Wagon-14")
    ]

    assert slugs == ["wagon-14", "wagon-14-2"]


def test_second_vehicle_of_the_same_label_is_refused(curator):
    VehicleFactory(label="Kestrel")

    with pytest.raises(ValidationError, match="already a vehicle known as Kestrel"):
        record_vehicle({"label": "kestrel", "vehicle_class": VehicleClassFactory()}, by=curator)


def test_class_of_a_vehicle_with_fittings_stays(curator):
    vehicle = FittingFactory().vehicle
    vehicle.vehicle_class = other = VehicleClassFactory()

    with pytest.raises(ValidationError, match="so its class stays"):
        change_vehicle(vehicle, {"vehicle_class": other}, by=curator)


def test_change_keeps_the_address(curator):
    vehicle = VehicleFactory(label="Wagon 14", slug="wagon-14")

    change_vehicle(vehicle, {"label": "Wagon 14 (rebuilt)"}, by=curator)

    vehicle.refresh_from_db()
    assert (vehicle.label, vehicle.slug) == ("Wagon 14 (rebuilt)", "wagon-14")


def test_restoration_order_numbers_from_one_and_forgets_the_rest(curator):
    a, b, c = (VehicleFactory(label=label) for label in "abc")
    set_restoration_order([a, b], by=curator)

    set_restoration_order([c, a], by=curator)

    assert order() == [("c", 1), ("a", 2)]


@pytest.mark.parametrize(
    ("label", "places", "expected"),
    [("b", -1, "bac"), ("b", 1, "acb"), ("a", -1, "abc"), ("c", 1, "abc"), ("d", 0, "abcd")],
)
def test_vehicle_moves_by_one_place_and_stops_at_the_ends(curator, label, places, expected):
    vehicles = {name: VehicleFactory(label=name) for name in "abcd"}
    set_restoration_order([vehicles[name] for name in "abc"], by=curator)
    vehicles[label].refresh_from_db()

    move_in_restoration_order(vehicles[label], places, by=curator)

    assert "".join(name for name, _ in order()) == expected


def test_vehicle_that_leaves_the_order_lets_others_move_up(curator):
    a, b = (VehicleFactory(label=label) for label in "ab")
    set_restoration_order([a, b], by=curator)

    leave_restoration_order(a, by=curator)

    assert order() == [("b", 1)]


def test_difference_is_recorded_with_its_source(curator):
    vehicle, source = VehicleFactory(), SourceFactory()
    position = PositionFactory(vehicle_class=vehicle.vehicle_class)

    row = record_difference(
        vehicle,
        kind="dropped",
        reason="never had sand pipes",
        position=position,
        since="as built",
        source=source,
        locator="sheet 2",
        by=curator,
    )

    assert (row.position, row.since) == (position, "as built")
    assert [str(citation) for citation in row.citations.all()] == [f"{source}, sheet 2"]


def test_position_of_one_vehicle_comes_with_the_reason_for_it(curator):
    vehicle = VehicleFactory()
    told = {"component": ComponentFactory(), "since": "1911", "by": curator}

    position = add_own_position(vehicle, code="s3", reason="seen on the engine", **told)
    with pytest.raises(ValidationError, match="Say why, or how it is known"):
        add_own_position(vehicle, code="s4", reason=" ", **told)

    row = vehicle.deviations.get()
    assert (row.kind, row.position, row.since) == ("added", position, "1911")
    assert Position.objects.get() == position
