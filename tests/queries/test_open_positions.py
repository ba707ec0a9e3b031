"""Open positions over several vehicles, chosen by assembly and route."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalog.models import Fitting, Part
from catalog.queries.open_positions import open_positions
from catalog.queries.plans import vehicles_to_plan
from tests.factories import FittingFactory
from tests.tramway import lay_out_shop

pytestmark = pytest.mark.django_db


def told(**chosen):
    return [
        (one.need.vehicle.label, one.need.position.code, one.best and one.best.name)
        for one in open_positions(vehicles_to_plan(), **chosen)
    ]


def test_open_positions_of_an_assembly_over_all_vehicles():
    lay_out_shop()

    fit = "fit what is in hand"
    assert told(assembly="draw gear") == [
        ("Wagon 14", "B", fit),
        ("Wagon 22", "A", fit),
        ("Wagon 22", "B", fit),
        ("Wagon 31", "A", fit),
        ("Wagon 31", "B", fit),
    ]


def test_open_positions_that_have_a_route():
    lay_out_shop()

    assert told(route="pattern") == told(assembly="draw gear")
    assert told(route="pattern", assembly="body") == []
    first, *_ = open_positions(vehicles_to_plan(), route="pattern")
    assert first.also.words == "Make one from 2026.4.3 as pattern."
    first, *_ = open_positions(vehicles_to_plan(), route="fit")
    assert first.also is None


def test_reserved_part_needs_no_route_and_may_be_freed_for_an_earlier_vehicle():
    shop = lay_out_shop()
    FittingFactory(
        vehicle=shop.vehicles["Wagon 31"],
        position=shop.position("journal box", "L1"),
        part=Part.objects.get(number="2026.4.4"),
        state=Fitting.State.RESERVED,
    )

    assert ("Wagon 31", "L1", None) in told(assembly="running gear")
    assert [label for label, *_ in told(route="free")] == ["Wagon 14"]


def test_three_vehicles_take_the_same_queries_as_one():
    lay_out_shop()
    vehicles = vehicles_to_plan()

    def count(some):
        with CaptureQueriesContext(connection) as queries:
            open_positions(some)
        return len(queries)

    count(vehicles)
    assert count(vehicles) == count(vehicles[2:])
