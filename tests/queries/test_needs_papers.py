"""What a needs sheet says: like positions gathered, routes in few words, places shortened."""

from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalog.models import Component, Fitting
from catalog.queries.needs_papers import needs_papers
from tests.factories import FittingFactory, LocationFactory
from tests.tramway import lay_out_class, lay_out_shop

pytestmark = pytest.mark.django_db


def lines_of(vehicle):
    (paper,) = needs_papers([vehicle])
    return [line for one in paper.assemblies for line in one.lines]


def told(line):
    boxes = [f"{box.code} {box.part}".strip() for box in line.boxes]
    return line.component.name, line.state, boxes, line.words


@pytest.fixture
def shelf(db):
    return LocationFactory(name="Shelf 2", path="Wagon shop › Rack B › Shelf 2")


def test_positions_that_are_alike_stand_on_one_line_with_a_box_each():
    shop = lay_out_shop()

    lines = [told(line) for line in lines_of(shop.vehicles["Wagon 22"])]

    nothing = "Nothing to check it against."
    assert lines == [
        ("drawhead", "available", ["A 2026.4.1", "B 2026.4.2"], nothing),
        ("hinge", "available", ["HL 2026.4.5", "HR 2026.4.5"], nothing),
    ]


def test_component_stays_together_though_its_positions_differ():
    shop = lay_out_shop()
    FittingFactory(
        vehicle=shop.vehicles["Wagon 31"],
        position=shop.position("journal box", "R1"),
        part=shop.part("journal box", number="2026.4.6"),
        state=Fitting.State.TRIAL,
    )

    first, second, *_ = (told(line) for line in lines_of(shop.vehicles["Wagon 31"]))

    assert first[:3] == ("journal box", "available", ["L1 2026.4.4"])
    assert second == ("journal box", "trial", ["R1 2026.4.6"], "On trial.")


def test_reserved_part_says_where_it_lies_without_the_usual_site(shelf):
    shop = lay_out_shop()
    part = shop.part("hinge", number="2026.4.9", location=shelf)
    FittingFactory(
        vehicle=shop.vehicles["Wagon 31"],
        position=shop.position("hinge", "HL"),
        part=part,
        state=Fitting.State.RESERVED,
    )

    (paper,) = needs_papers([shop.vehicles["Wagon 31"]])

    line = paper.assemblies[-1].lines[0]
    assert told(line)[2:] == (["HL 2026.4.9"], "Reserved. Rack B › Shelf 2.")
    assert paper.site == "Wagon shop"


def test_reserved_part_that_lies_in_another_says_in_which(shelf):
    shop = lay_out_shop()
    box = shop.part("journal box", number="2026.4.20", usability="unusable", location=shelf)
    FittingFactory(
        vehicle=shop.vehicles["Wagon 31"],
        position=shop.position("hinge", "HL"),
        part=shop.part("hinge", number="2026.4.9", location=None, inside=box),
        state=Fitting.State.RESERVED,
    )

    line = lines_of(shop.vehicles["Wagon 31"])[-2]

    where = "Reserved. Rack B › Shelf 2, inside 2026.4.20."
    assert told(line)[2:] == (["HL 2026.4.9"], where)


def test_pattern_is_named_with_its_place_hours_and_the_other_routes(shelf):
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 31", 1)
    Component.objects.filter(name="drawhead").update(making_hours=Decimal("18"))
    shop.part("drawhead", number="2026.4.3", usability="pattern", location=shelf)

    lines = {line.component.name: told(line) for line in lines_of(wagon)}

    words = "Make one from 2026.4.3 as pattern. Rack B › Shelf 2. About 18 hours. Or: ask."
    assert lines["drawhead"] == ("drawhead", "pattern", ["A", "B"], words)
    assert lines["hinge"][3] == "Ask others for a hinge."


def test_what_is_to_be_measured_first_and_what_is_to_mind_are_said():
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 31", 1)
    shop.limits("hinge", "length", lower_mm="300", upper_mm="310")
    shop.measure(shop.part("hinge", number="2026.4.7"), "length", "305")
    shop.part("hinge", number="2026.4.8", identification_status="proposed")

    words = [line.words for line in lines_of(wagon) if line.component.name == "hinge"]

    assert words == [
        "Fits as measured.",
        "Measure first: length. Not agreed by a second person yet.",
    ]


def test_vehicle_without_positions_has_an_empty_sheet():
    vehicle = lay_out_class().vehicle("Wagon 14")
    vehicle.vehicle_class.positions.all().delete()

    (paper,) = needs_papers([vehicle])

    assert (paper.has_open, paper.has_fitted, paper.site) == (False, False, "")


def test_sheet_takes_the_same_queries_for_one_reserved_part_and_three():
    shop = lay_out_shop()
    wagon = shop.vehicles["Wagon 31"]

    def reserve(component, code):
        place, part = shop.position(component, code), shop.part(component)
        FittingFactory(vehicle=wagon, position=place, part=part, state=Fitting.State.RESERVED)

    reserve("hinge", "HL")
    needs_papers([wagon])
    one = queries_of(wagon)
    reserve("drawhead", "A")
    reserve("journal box", "L1")

    assert queries_of(wagon) == one


def queries_of(vehicle):
    with CaptureQueriesContext(connection) as queries:
        needs_papers([vehicle])
    return len(queries)
