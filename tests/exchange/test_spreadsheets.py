"""Lists written as spreadsheets, and read back by another reader and by the importer."""

import csv
import datetime as dt
import io
from decimal import Decimal

import pytest

from catalog.exchange.part_columns import guess_fields
from catalog.exchange.spreadsheets import (
    NEEDS,
    PARTS,
    file_name,
    needs_as_csv,
    parts_as_csv,
    plan_as_csv,
)
from catalog.exchange.tables import read_table
from catalog.models import Part
from catalog.queries.needs import needs_of_vehicles
from catalog.queries.plan_outcomes import MakeLine, OpenLine, Outcome, UseLine, VehicleOutcome
from catalog.reckoning.efforts import Effort
from tests.factories import (
    FittingFactory,
    LocationFactory,
    MeasurementFactory,
    PartFactory,
    PartMarkFactory,
    PositionFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


def rows_of(data):
    return list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"))))


@pytest.fixture
def ring():
    where = LocationFactory(name="Shelf 7")
    told = {"number": "2026.1.4", "surviving_share": Decimal("0.5"), "usability": "repair"}
    part = PartFactory(description="=ring", location=where, condition="cracked", **told)
    PartMarkFactory(part=part, text="T.I. 2?7")
    MeasurementFactory(part=part, name="bore", text="2 1/2 in")
    MeasurementFactory(part=part, name="bore", text="3 in", withdrawn_at=part.recorded_at)
    return part


def test_a_part_is_written_as_its_record_has_it(ring):
    (row,) = rows_of(parts_as_csv(Part.objects.all()))

    assert row == dict.fromkeys(PARTS, "") | {
        "Number": "2026.1.4",
        "Description": "'=ring",
        "Quantity": "1",
        "Usability": "needs repair",
        "Survives": "50 %",
        "Condition": "cracked",
        "Location": str(ring.location),
        "Marks": "T.I. 2?7",
        "Dimensions": "bore 2 1/2 in",
        "Identification": "unidentified",
    }


def test_the_importer_understands_the_headings(ring):
    table = read_table("parts.csv", parts_as_csv(Part.objects.all()))

    fields = dict(zip(PARTS, guess_fields(table), strict=True))

    plain = ("Number", "Component", "Description", "Quantity", "Usability", "Survives", "Material")
    assert [fields[name] for name in plain] == [name.lower() for name in plain]
    assert [fields[name] for name in ("Condition", "Location", "Marks")] == [
        "condition",
        "location",
        "marks",
    ]


def test_parts_take_the_same_queries_for_one_and_for_three(ring, django_assert_num_queries):
    with django_assert_num_queries(3):
        parts_as_csv(Part.objects.all())
    PartFactory.create_batch(2)

    with django_assert_num_queries(3):
        parts_as_csv(Part.objects.all())


def test_needs_tell_each_open_position_and_the_part_that_would_fill_it():
    vehicle = VehicleFactory()
    position = PositionFactory(vehicle_class=vehicle.vehicle_class, code="L1", is_essential=True)
    filled = PositionFactory(vehicle_class=vehicle.vehicle_class, code="R1")
    FittingFactory(vehicle=vehicle, position=filled, state="fitted")
    where = LocationFactory(name="Shelf 7")
    ready = {"identification_status": "agreed", "usability": "ready", "location": where}
    part = PartFactory(component=position.component, number="2026.1.4", **ready)

    rows = rows_of(needs_as_csv(needs_of_vehicles([vehicle]).values()))

    assert rows == [
        dict.fromkeys(NEEDS, "")
        | {
            "Vehicle": str(vehicle),
            "Assembly": position.assembly,
            "Position": "L1",
            "Component": str(position.component),
            "Essential": "yes",
            "State": "a part in hand fits",
            "Part in hand": str(part),
            "Where it is": where.path,
        }
    ]


def test_needs_tell_where_a_reserved_part_still_lies():
    vehicle = VehicleFactory()
    where = LocationFactory(name="Shelf 7")
    box = PartFactory(number="2026.1.4", location=where)
    inside = {"location": None, "inside": box}
    for code, state, place in (("L1", "reserved", {"location": where}), ("R1", "trial", inside)):
        position = PositionFactory(vehicle_class=vehicle.vehicle_class, code=code)
        part = PartFactory(component=position.component, **place)
        FittingFactory(vehicle=vehicle, position=position, part=part, state=state)

    rows = rows_of(needs_as_csv(needs_of_vehicles([vehicle]).values()))

    told = {row["Position"]: row["Where it is"] for row in rows}
    assert told == {"L1": where.path, "R1": f"{where.path}, inside 2026.1.4"}


def test_the_file_s_name_says_what_and_when():
    assert file_name("needs", dt.datetime(2026, 3, 1, tzinfo=dt.UTC)) == "needs 2026-03-01.csv"


def test_a_plan_is_written_a_position_a_row_with_the_work_that_each_takes():
    uses = (
        UseLine(1, "B", "drawhead", 7, "2026.1.12", "Fits."),
        UseLine(2, "L1", "journal box", 8, "2026.1.2", "Repair it first.", Effort(85, True, 1250)),
    )
    still_open = (OpenLine(3, "T", "tipping body", True, "nothing in hand"),)
    new = ("drawhead", "make from pattern", Effort(240, False), 9, "2026.1.13", "Note.", "Terms.")
    makes = (MakeLine(4, "A", *new),)
    wagon = VehicleOutcome(1, "wagon-22", "Wagon 22", False, "", uses, still_open, makes)

    rows = rows_of(plan_as_csv(Outcome("", True, (), (wagon,))))

    assert [list(row.values())[1:] for row in rows] == [
        ["B", "drawhead", "use", "2026.1.12", "Fits.", "", "", ""],
        [
            *("L1", "journal box", "repair, then use", "2026.1.2"),
            *("Repair it first.", "8.5", "yes", "12.50"),
        ],
        ["A", "drawhead", "make from pattern", "2026.1.13", "Terms. Note.", "24", "no", ""],
        ["T", "tipping body", "stays open", "", "nothing in hand", "", "", ""],
    ]
