"""What a record's history tells: what people wrote, not how the catalog keeps it."""

import datetime as dt

import pytest

from catalog.operations.measurements import record_measurement
from catalog.operations.parts import change_part
from catalog.operations.vehicles import change_vehicle
from catalog.queries.history import history_of
from catalog.reckoning.lengths import parse_length
from tests.factories import PartFactory, VehicleFactory

pytestmark = pytest.mark.django_db
MOMENT = dt.datetime(2026, 3, 7, 14, 5, tzinfo=dt.UTC)


def told(entry):
    return {each.field: (each.before, each.after) for each in entry.differences}


def test_reading_is_told_as_it_was_typed_at_the_part_that_it_belongs_to(member):
    part = PartFactory()
    record_measurement(part, name="bore", length=parse_length("3 3/4 in"), at=MOMENT, by=member)

    [reading] = [entry for entry in history_of(part) if entry.subject == "measurement"]

    words = told(reading)
    assert words["reading"] == ("", "3 3/4 in")
    assert words["measured at"] == ("", "7 March 2026, 14:05")
    assert {"part", "value mm", "resolution mm"}.isdisjoint(words)


def test_number_is_told_without_idle_digits(member):
    part = PartFactory(mass_kg="12.500")
    change_part(part, {"mass_kg": "14"}, by=member)

    assert told(history_of(part)[0]) == {"mass in kg": ("12.5", "14")}


def test_vague_date_is_told_as_it_was_typed_without_its_bounds(curator):
    vehicle = VehicleFactory()
    change_vehicle(vehicle, {"date_text": "about 1902"}, by=curator)

    assert told(history_of(vehicle)[0]) == {"date": ("", "about 1902")}
