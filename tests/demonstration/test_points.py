"""The demonstration makes its point: what one wagon waits for, one doubt, one dated casting."""

from io import BytesIO

import pytest
from django.utils import timezone
from pypdf import PdfReader

from catalog.exchange.demonstration import load_demonstration
from catalog.models import Characteristic, Member, Part, Plan, Vehicle
from catalog.operations.visits import note_visit
from catalog.printing.needs_sheets import needs_pages
from catalog.printing.papers import Paper
from catalog.queries.ages import age_of
from catalog.queries.changes import news_of
from catalog.queries.fits import what_it_fits
from catalog.queries.identity import what_it_may_be
from catalog.queries.intake import intake
from catalog.queries.needs import needs_of_shop
from catalog.queries.needs_papers import needs_papers
from catalog.queries.plan_outcomes import outcome_of
from catalog.queries.plans import vehicles_to_plan
from catalog.queries.routes import Kind, needs_and_routes
from catalog.queries.shop_plans import plan_of_shop
from catalog.queries.strips import strips_of
from catalog.queries.survivors import open_questions, survivors
from tests.printing.reading import read

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("demonstration")]


def strips():
    vehicles = list(Vehicle.objects.for_list())
    found = strips_of(vehicles, needs_of_shop(vehicles), plan_of_shop(vehicles).vehicles)
    return {strip.needs.vehicle.label: strip for strip in found}


def test_plan_is_telling():
    told = {label: (one.outlook, one.blocking_words) for label, one in strips().items()}
    assert told["Wagon 14"] == ("what is in hand completes it, by the plan for all vehicles", "")
    assert told["Wagon 22"] == ("1 need blocks it, by the plan for all vehicles", "drawhead")
    assert told["Wagon 31"][0] == "17 needs block it, by the plan for all vehicles"


def test_one_drawhead_finishes_the_next_and_half_of_one_is_a_pattern():
    assert plan_of_shop(vehicles_to_plan()).next_step.sentence == (
        "One more drawhead would complete Wagon 22."
    )
    _, routes = needs_and_routes(Vehicle.objects.get(label="Wagon 22"))
    made = [
        route.part.label
        for one in routes.positions
        if one.position.component.name == "drawhead"
        for route in one.routes
        if route.kind == Kind.PATTERN
    ]
    halves = Part.objects.filter(component__name="drawhead", surviving_share=0.5)
    assert set(made) == {part.number for part in halves}
    assert len(halves) == 1


def test_casting_from_half_a_drawhead_completes_wagon_22():
    as_it_is, with_castings = (
        outcome_of(plan) for plan in Plan.objects.filter(state="ready").order_by("pk")
    )
    told = {one.label: one.sentence for one in with_castings.vehicles}
    assert (as_it_is.complete, with_castings.complete) == (2, 3)
    assert told["Wagon 22"] == "Can be completed by making 1 drawhead."
    drawheads, brasses, _ = with_castings.to_make
    assert drawheads.line.sentence == "make from pattern 2026.1.13, 18 hours"
    assert "What is missing of it must be added" in drawheads.line.note
    assert "one set of four castings may be made from it" in brasses.line.terms
    assert "4 castings may still be made from it." in brasses.line.terms
    assert len(brasses.where) == 4


def test_survivor_can_be_visited_and_measured():
    (survivor,) = survivors()
    (example,) = survivor.classes
    asked = {(one.component, one.characteristic) for one in open_questions(example)}
    assert (str(example), survivor.source.holder.name) == (
        "Class E",
        "Old Level Mining Museum Society",
    )
    assert ("tipping body", "shape and main dimensions") in asked


def test_strap_is_in_doubt():
    found = what_it_may_be(Part.objects.get(number="2026.1.20"))
    first, rival, other = found.candidates
    assert [first.name, rival.name] == ["class E strap hinge", "class B strap hinge"]
    assert first.probability > rival.probability > 0.2 > other.probability
    assert found.next[0].name == "hole pitch"


def test_latch_is_dated():
    latch = age_of(Part.objects.get(number="2026.1.15"))
    assert "agrees with US 767412" in latch.evidence[0].label
    assert latch.made.when == "between 10 August 1900 and 31 March 1930"


def test_box_brass_and_wheelset_agree_by_wear_only():
    fits = what_it_fits(Part.objects.get(number="2026.1.4"))
    (wheelsets,) = fits.mates
    pairs = (*wheelsets.mates, *wheelsets.unknown, *wheelsets.excluded)
    assert [(str(one.mate), one.verdict.fit) for one in pairs] == [
        ("2026.2.1", "fits"),
        ("2026.2.2", "unknown"),
        ("2026.2.3", "does not fit"),
    ]
    assert pairs[1].reason == "Unknown: measure the journal diameter of 2026.2.2."
    assert pairs[2].reason.endswith("is 13.70 ± 0.47 mm; allowed is 19.05 to 31.75 mm.")
    worn = {str(one.members[2][1]): one.is_worn for one in fits.sets if one.fit == "fits"}
    assert worn == {"2026.1.7": False, "2026.1.8": True}
    best = fits.sets[0]
    assert (best.lies_in, best.is_worn) == (("2026.1.8 lies in 2026.1.4",), True)


def test_every_characteristic_says_and_shows_where_to_measure():
    rows = Characteristic.objects.select_related("component", "picture")
    assert rows
    without = [
        f"{row} of {row.component}"
        for row in rows
        if not row.where_to_measure
        or row.picture is None
        or row.picture.component != row.component
        or row.picture.caption != f"Where the {row.component} is measured"
    ]
    assert without == []


def test_members_come_back_to_news():
    volunteer = Member.objects.get(username="volunteer")
    news = news_of(volunteer, note_visit(volunteer).since)
    assert [group.words for group in news.groups] == [
        "2 parts fitted",
        "1 vehicle nearer to done",
        "1 new answer to what we ask for",
    ]


def test_pieces_came_over_several_months():
    assert sum(month.pieces > 0 for month in intake().months) >= 4
    assert Part.objects.filter(recorded_at__gt=timezone.now()).count() == 0


def test_needs_of_each_vehicle_take_one_page():
    vehicles = Vehicle.objects.kept().select_related("vehicle_class")
    told = {
        (sheet.vehicle.label, paper.value): len(
            read(needs_pages(sheet, address="https://shed.example{}".format, paper=paper)).pages
        )
        for sheet in needs_papers(vehicles)
        for paper in Paper
    }
    assert set(told.values()) == {1}
    assert len(told) == 2 * len(vehicles)


def test_it_is_not_loaded_twice(demonstration):
    again = load_demonstration()

    assert (demonstration.is_new, again.is_new) == (True, False)
    assert (demonstration.vehicles, demonstration.parts) == (again.vehicles, again.parts)


def test_stranger_sees_the_drawing_of_what_is_wanted(client):
    page = client.get("/wanted/drawhead-for-wagon-22/").content.decode()

    assert "Side elevation from the right" in page


def test_wanted_sheet_shows_piece_and_drawing_on_one_page(client):
    sheet = client.get("/wanted/drawhead-for-wagon-22/sheet/").content
    (page,) = PdfReader(BytesIO(sheet)).pages

    assert "Side elevation from the right" in page.extract_text()
    assert len(page.images) >= 2
