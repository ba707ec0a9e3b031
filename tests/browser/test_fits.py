"""Limits and trials on a phone and by keyboard: what is written down changes what fits."""

import pytest
from django.urls import reverse

from catalog.models import Fitting, Specification
from tests.corner import lay_out_pieces
from tests.factories import PositionFactory, VehicleClassFactory, VehicleFactory
from tests.samples import PICTURES

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def corner():
    return lay_out_pieces()


@pytest.fixture
def brass(corner):
    return corner.parts["worn brass"]


@pytest.fixture
def tender(corner):
    """Return a class without limits, of which one vehicle lacks a wheelset of journals 3¾ in."""
    kind = VehicleClassFactory(designation="Class T")
    PositionFactory(vehicle_class=kind, component=corner.components["wheelset"], code="A1")
    VehicleFactory(label="Tender 4", vehicle_class=kind)
    corner.part("large wheelset", "wheelset", vehicle_class=kind)
    corner.measure("large wheelset", "journal diameter", "95.25")
    return kind


@pytest.fixture
def sheets(corner):
    """Return the addresses of the two positions for a brass, by their codes."""
    kind = corner.components["bearing brass"]
    return {
        place.code: reverse("position-detail", args=[corner.vehicle.slug, place.pk])
        for place in corner.vehicle_class.positions.filter(component=kind)
    }


def check_width(page):
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0


def adopt(page, *, tolerance, wear):
    page.get_by_label("A new one may differ either way by").fill(tolerance)
    page.get_by_label("A worn one may be smaller by").fill(wear)
    page.get_by_role("button", name="Take it over").tap()


def test_published_size_is_adopted_with_a_tolerance_and_the_answer_changes(
    phone, signed_in, curator, corner, tender, axe
):
    page = signed_in(phone, curator)
    fits = reverse("part-fits", args=[corner.parts["large wheelset"].pk])
    page.goto(fits)
    page.get_by_text("Nothing is recorded to check it against.").first.wait_for(state="attached")
    page.goto(tender.get_absolute_url())
    page.get_by_role("link", name="Adopt a published limit").tap()
    page.locator("a[href$='/published/journal-a/']").tap()
    page.get_by_label("For", exact=True).select_option(label="wheelset: journal diameter")
    axe(page)

    adopt(page, tolerance="1/64 in", wear="1/128 in")
    page.get_by_text("Wear of 0.198 mm lies within the ± 0.397 mm of a new piece.").wait_for()
    assert page.get_by_label("A new one may differ either way by").input_value() == "1/64 in"
    adopt(page, tolerance="1/64 in", wear="1/2 in")

    page.wait_for_url(f"**{tender.get_absolute_url()}")
    page.goto(fits)
    page.get_by_text("Fits: journal diameter is within the limits.").first.wait_for()
    page.get_by_text("RP-633, size A").first.wait_for()
    check_width(page)


def base_class_on(page, designation, base):
    page.goto(reverse("vehicle-class-add"))
    page.get_by_label("Designation").fill(designation)
    page.get_by_label("Based on").select_option(label=base)
    page.get_by_role("button", name="Save").press("Enter")
    page.get_by_role("heading", name=designation).first.wait_for()
    page.get_by_text(f"everywhere, from {base}").first.wait_for()


def differ(page, characteristic, limit, from_, to):
    page.get_by_role("link", name="Differs here").filter(has_text=characteristic).press("Enter")
    field = page.get_by_label(limit)
    assert field.input_value() == from_
    field.fill(to)
    field.press("Enter")
    page.get_by_text("They stand in the place of all that Class E says").wait_for()


def test_class_based_on_another_differs_in_one_limit_and_its_vehicle_follows(
    desk, signed_in, curator, corner, brass
):
    page = signed_in(desk, curator)
    base_class_on(page, "Class B", "Class E")
    kind = corner.vehicle_class.variants.get()
    wagon = VehicleFactory(label="Brake wagon 3", vehicle_class=kind)
    needs = reverse("vehicle-needs", args=[wagon.slug])
    page.goto(needs)
    page.get_by_text("A part in hand fits").first.wait_for()

    page.goto(kind.get_absolute_url())
    differ(page, "bore", "Upper limit when worn", "68.3 mm", "66 mm")

    page.goto(reverse("part-fits", args=[brass.pk]))
    excluded = page.get_by_role("listitem").filter(has_text="Brake wagon 3")
    assert excluded.first.inner_text() == (
        "L1, R1 of Brake wagon 3: Does not fit: bore is 66.95 ± 0.05 mm; allowed is 63.5 to 66 mm."
    )
    page.get_by_role("heading", name="L1, R1 of Wagon 31").wait_for()
    page.goto(needs)
    page.get_by_text("Nothing in hand").first.wait_for()


def say_it_did_not_go(page, why):
    page.get_by_label("did not go").press("Space")
    page.get_by_label("What bound").fill(why)
    page.locator("input[type=file]").first.set_input_files(PICTURES / "orientation_6.jpg")


def test_trial_on_the_bench_that_did_not_go_rules_the_part_out_there(
    phone, signed_in, member, brass, sheets, axe
):
    page = signed_in(phone, member)
    fits = reverse("part-fits", args=[brass.pk])
    page.goto(fits)
    page.get_by_role("link", name="Try at L1").tap()
    page.get_by_role("heading", name="Fit bench").wait_for()
    say_it_did_not_go(page, "the collar")
    page.get_by_role("button", name="Record the trial").tap()
    page.get_by_text("it was tried and did not go: the collar").first.wait_for()
    axe(page)

    assert brass.trials.get().photos.count() == 1
    page.goto(fits)
    page.get_by_role("heading", name="R1 of Wagon 31").wait_for()
    excluded = page.get_by_role("listitem").filter(has_text="L1 of Wagon 31: ")
    assert "it was tried and did not go: the collar" in excluded.inner_text()
    for code, state in (("L1", "Nothing in hand"), ("R1", "A part in hand fits")):
        page.goto(sheets[code])
        page.get_by_text(state).first.wait_for()
        check_width(page)


def test_part_on_trial_that_did_not_go_gives_its_position_up(
    desk, signed_in, curator, brass, sheets
):
    page = signed_in(desk, curator)
    page.goto(sheets["R1"])
    page.get_by_role("button", name="Put on trial").first.press("Enter")
    page.get_by_role("link", name="How it went").press("Enter")
    page.get_by_role("heading", name="How").wait_for()
    say_it_did_not_go(page, "the collar")
    page.get_by_role("button", name="Save").press("Enter")

    page.get_by_text("did not go. It has given up").first.wait_for()
    fitting = Fitting.objects.get()
    assert (fitting.state, fitting.note) == (Fitting.State.REJECTED, "the collar")
    ruled_out = page.get_by_role("listitem").filter(has_text=str(brass))
    assert "it was tried and did not go: the collar" in ruled_out.first.inner_text()
    assert page.locator("main img").count() == 1


def test_crossed_limits_are_refused_beside_the_field_and_kept_as_typed(
    phone, signed_in, curator, corner, axe
):
    rows = Specification.objects.filter(characteristic__name="flange width")
    rows.delete()
    page = signed_in(phone, curator)
    page.goto(reverse("specification-add", args=[corner.vehicle_class.pk]))
    asked = page.get_by_label("What is measured", exact=True)
    asked.select_option(label="journal box: flange width")
    worn = page.get_by_label("Lower limit when worn")
    page.get_by_label("Upper limit as new").fill("3 3/4 in")
    worn.fill("99 mm")
    page.get_by_role("button", name="Save").tap()

    words = "The lower limit when worn is above the upper limit: 99 mm against 95.25 mm."
    page.locator(".field", has=worn).get_by_text(words).wait_for()
    axe(page)
    assert page.get_by_label("Upper limit as new").input_value() == "3 3/4 in"
    worn.fill("3 1/2 in")
    page.get_by_role("button", name="Save").tap()

    page.wait_for_url(f"**{corner.vehicle_class.get_absolute_url()}")
    assert float(rows.get().worn_lower_mm) == 88.9


def test_answer_stands_on_the_first_screen_of_a_small_phone(phone, signed_in, member):
    corner = lay_out_pieces()
    page = signed_in(phone, member)
    page.set_viewport_size({"width": 360, "height": 640})

    page.goto(f"/parts/{corner.parts['box'].pk}/fits/")

    sentence = page.locator(".lead li").first.bounding_box()
    current = page.locator(".sheet-tabs [aria-current]").bounding_box()
    bar = page.locator(".thumb-bar").bounding_box()
    assert sentence["y"] + sentence["height"] < bar["y"]
    assert current["x"] + current["width"] <= 345
