"""Scanning in the page, where the browser can find codes itself: a tag, a shelf, and its contents."""

import json

import pytest

from catalog.models import StockTake
from tests.factories import LocationFactory, PartFactory

pytestmark = pytest.mark.django_db(transaction=True)
SHELF, FIRST, SECOND = "K7Q-2M28", "K7Q-2M9V", "VXR-MQ79"


def show_codes(phone, *codes):
    """Put codes before the camera, each for a while, on a browser that can read them."""
    seen = [f"HTTPS://SHED.EXAMPLE/t/{code}/" for code in codes for _ in range(2)]
    phone.context.add_init_script(
        f"""
        const seen = {json.dumps(seen)};
        window.BarcodeDetector = class {{
          detect() {{ return seen.length ? [{{ rawValue: seen.shift() }}] : []; }}
        }};
        const canvas = document.createElement("canvas");
        const drawing = canvas.getContext("2d");
        setInterval(() => drawing.fillRect(0, 0, 9, 9), 50);
        navigator.mediaDevices.getUserMedia = async () => canvas.captureStream(5);
        """
    )


def test_tag_is_scanned_into_a_new_piece(new_phone, member):
    phone = new_phone(member)
    show_codes(phone, FIRST)
    phone.open()

    phone.press("Scan the tag")

    phone.page.wait_for_selector("dialog", state="detached")
    assert phone.page.locator("[name=tag]").input_value() == FIRST


def test_shelf_and_parts_are_scanned_and_moved_without_a_signal(new_phone, member):
    shelf = LocationFactory(tag=SHELF)
    parts = [PartFactory(tag=FIRST), PartFactory(tag=SECOND)]
    phone = new_phone(member)
    show_codes(phone, FIRST, SECOND)
    phone.open()
    phone.signal(False)
    phone.page.goto("/move/")
    phone.page.locator("form[data-carry][data-ready]").wait_for()

    phone.press("Scan one after the other")
    phone.await_words(f"2 scanned, {SECOND} last.")
    phone.press("Close the camera")
    assert phone.page.locator("[name=pieces]").input_value() == f"{FIRST}\n{SECOND}"
    phone.fill("Tag of the location", SHELF)
    phone.press("Move them")
    phone.signal(True)
    phone.await_strip(0, 1)

    for part in parts:
        part.refresh_from_db()
    assert [part.location for part in parts] == [shelf, shelf]


def test_what_lies_on_a_shelf_is_scanned_one_after_the_other(new_phone, member):
    shelf = LocationFactory()
    PartFactory(location=shelf, tag=FIRST)
    PartFactory(tag=SECOND)
    PartFactory(location=shelf)
    phone = new_phone(member)
    show_codes(phone, FIRST, SECOND)
    phone.page.goto(f"/locations/{shelf.pk}/stock-take/")

    phone.press("Scan one after the other")
    phone.await_words(f"2 scanned, {SECOND} last.")
    phone.press("Close the camera")
    phone.press("Compare")

    phone.await_words("1 here as recorded, 1 missing, 1 unexpected, 0 unknown")
    assert StockTake.objects.count() == 1


def test_camera_that_is_refused_says_to_type(new_phone, member):
    phone = new_phone(member)
    show_codes(phone)
    refusal = "navigator.mediaDevices.getUserMedia = () => Promise.reject(new Error('refused'))"
    phone.context.add_init_script(refusal)
    phone.page.goto("/move/")

    phone.press("Scan the tag")

    phone.await_words("The camera cannot be used here: type the code.")
