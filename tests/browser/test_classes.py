"""A class and a component on a phone: pages shut nobody out, and a tap places a position."""

import pytest
from django.urls import reverse

from catalog.operations.components import add_characteristic, add_mating_rule, record_component
from catalog.operations.drawings import add_drawing_from_file, place_spot
from catalog.operations.positions import add_position
from catalog.operations.specifications import add_specification
from catalog.operations.vehicle_classes import record_vehicle_class
from tests.factories import SourceFactory
from tests.samples import picture

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def box(curator):
    names = [("axlebox", "uk")]
    box = record_component({"name": "journal box", "aliases": names}, by=curator)
    bore = add_characteristic(box, name="bore", where_to_measure="half way in", by=curator)
    journal = add_characteristic(
        record_component({"name": "wheelset"}, by=curator), name="journal diameter", by=curator
    )
    add_mating_rule(bore, journal, least_mm=1, by=curator)
    return box


@pytest.fixture
def plan(curator, box):
    kind = record_vehicle_class({"designation": "Class E", "name": "ore wagon"}, by=curator)
    plan = add_drawing_from_file(kind, picture(size=(800, 400)), title="Plan", by=curator)
    for code in ("L1", "R1"):
        position = add_position(vehicle_class=kind, code=code, component=box, by=curator)
    place_spot(position, plan, 0.25, 0.5, by=curator)
    add_specification(
        vehicle_class=kind,
        characteristic=box.characteristics.get(),
        lower_mm=63,
        source=SourceFactory(),
        by=curator,
    )
    return plan


def test_component_and_class_shut_nobody_out(phone, signed_in, curator, axe, box, plan):
    page = signed_in(phone, curator)

    for address in (
        box.get_absolute_url(),
        reverse("component-list"),
        plan.vehicle_class.get_absolute_url(),
        reverse("vehicle-class-list"),
        reverse("drawing-spots", args=[plan.pk]),
        reverse("specification-add", args=[plan.vehicle_class.pk]),
    ):
        page.goto(address)
        axe(page)
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0


def test_tap_on_the_drawing_places_the_next_position(phone, signed_in, curator, plan):
    page = signed_in(phone, curator)
    page.goto(reverse("drawing-spots", args=[plan.pk]))
    # The behaviors of a page come after it.
    page.wait_for_load_state("networkidle")
    plate = page.locator("[data-point-at]")
    size = plate.bounding_box()

    plate.tap(position={"x": size["width"] * 0.4, "y": size["height"] * 0.5})
    page.get_by_role("button", name="Place it there").tap()

    page.get_by_text("L1 journal box is placed.").wait_for()
    spot = plan.spots.get(position__code="L1")
    assert (spot.x, spot.y) == pytest.approx((0.4, 0.5), abs=0.01)


def test_component_is_found_by_its_other_name_while_typing(desk, signed_in, curator, plan):
    page = signed_in(desk, curator)
    page.goto(reverse("class-position-add", args=[plan.vehicle_class.pk]))

    page.get_by_label("Search: Component").fill("axle")

    choices = page.get_by_label("Component", exact=True).locator("option")
    assert choices.all_text_contents() == ["choose one", "journal box"]
