"""Taking in by thumb: photos seen before they are saved, and a spot pointed at by a tap."""

import pytest
from django.urls import reverse
from playwright.sync_api import expect

from catalog.models import Part, PhotoSpot
from catalog.operations.patents import add_figure
from catalog.operations.photos import add_photo
from tests.factories import AccessionFactory, PartFactory, PatentFactory
from tests.samples import PICTURES, picture

pytestmark = pytest.mark.django_db(transaction=True)


def test_take_in_gathers_photos_and_lets_one_be_left_out(phone, signed_in, member, axe):
    accession = AccessionFactory(year=2026, serial=4)
    page = signed_in(phone, member)
    page.goto("/take-in/")
    # Everything is in sight, so that the bar at the foot hides half of nothing.
    page.set_viewport_size({"width": 412, "height": 2600})
    camera = page.locator("form.is-previewed[data-ready] input[capture]")
    camera.wait_for(state="attached")

    camera.set_input_files(PICTURES / "orientation_1.jpg")
    camera.set_input_files(PICTURES / "orientation_6.jpg")
    page.get_by_role("button", name="Leave out orientation_1.jpg").click()
    axe(page)
    page.get_by_label("Donation").select_option(str(accession.pk))
    page.get_by_role("button", name="Save this piece").click()

    page.get_by_text("0 kept on this phone, 1 sent.").wait_for()
    assert page.get_by_text("From the last piece: 2026.4").is_visible()
    assert Part.objects.get().photos.get().original_name == "orientation_6.jpg"


def test_take_in_fits_a_small_phone_and_saves_at_its_foot(phone, signed_in, member):
    page = signed_in(phone, member)
    page.set_viewport_size({"width": 360, "height": 640})
    page.goto("/take-in/")

    save = page.get_by_role("button", name="Save this piece").bounding_box()

    assert page.evaluate("document.documentElement.scrollWidth") == 360
    assert save["height"] >= 48
    assert 640 - 80 < save["y"] + save["height"] <= 640


def test_one_thumb_reaches_the_shutter_and_the_saving_wherever_the_page_is(
    phone, signed_in, member
):
    page = signed_in(phone, member)
    page.set_viewport_size({"width": 360, "height": 640})
    page.goto("/take-in/")
    page.locator("form[data-ready]").wait_for()
    page.get_by_text("What it is, how many, a mark").tap()
    page.evaluate("scrollTo(0, 400)")
    shutter = page.get_by_role("button", name="Photo", exact=True)
    boxes = [shutter.bounding_box(), page.get_by_text("Save this piece").bounding_box()]

    with page.expect_file_chooser() as camera:
        shutter.tap()
    camera.value.set_files(PICTURES / "orientation_6.jpg")
    page.get_by_role("button", name="Leave out orientation_6.jpg").wait_for()

    assert camera.value.element.get_attribute("capture") == "environment"
    assert all(box["y"] > 640 * 2 / 3 and box["height"] >= 48 for box in boxes)


def test_photo_is_pointed_at_by_a_tap(phone, signed_in, member, axe):
    photo = add_photo(picture(size=(400, 300)), by=member, part=PartFactory())
    page = signed_in(phone, member)
    page.goto(photo.get_absolute_url(), wait_until="networkidle")
    box = page.locator("[data-point-at]").bounding_box()

    page.mouse.click(box["x"] + box["width"] / 4, box["y"] + box["height"] / 2)
    page.get_by_label("What is there").fill("crack")
    page.get_by_role("button", name="Point at it").click()

    page.get_by_role("button", name="Remove: crack").wait_for()
    spot = PhotoSpot.objects.get()
    assert (round(spot.x, 2), round(spot.y, 2)) == (0.25, 0.5)
    axe(page)


def test_tap_on_a_figure_asks_for_its_character_first(phone, signed_in, member):
    figure = add_figure(PatentFactory(), picture(size=(400, 300)), label="Fig. 1", by=member)
    page = signed_in(phone, member)
    page.goto(reverse("patent-figure", args=[figure.pk]), wait_until="networkidle")

    page.locator("[data-point-at]").tap()
    page.keyboard.type("14")

    expect(page.get_by_label("Character", exact=True)).to_have_value("14")
