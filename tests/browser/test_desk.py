"""At a desk: the bench queue by keyboard alone, and photos dropped on a page."""

import pytest

from catalog.models import Part, Photo
from catalog.operations.photos import add_photo
from tests.factories import (
    AccessionFactory,
    ComponentAliasFactory,
    LocationFactory,
    PartFactory,
)
from tests.samples import PICTURES, picture

pytestmark = pytest.mark.django_db(transaction=True)
TAG = "K7Q-2M9V"
DROP = """([files]) => {
  const transfer = new DataTransfer();
  for (const { name, type, bytes } of files) {
    transfer.items.add(new File([new Uint8Array(bytes)], name, { type }));
  }
  document.body.dispatchEvent(new DragEvent("drop", { dataTransfer: transfer, bubbles: true }));
}"""


def drop(page, *names):
    page.locator("form.is-dropping").wait_for()
    files = [
        {"name": name, "type": "image/jpeg", "bytes": list((PICTURES / name).read_bytes())}
        if (PICTURES / name).exists()
        else {"name": name, "type": "text/plain", "bytes": [104, 105]}
        for name in names
    ]
    page.evaluate(DROP, [files])


def test_queue_is_worked_through_by_keyboard_alone(desk, signed_in, curator, axe):
    first, second = PartFactory(), PartFactory()
    add_photo(picture(size=(1200, 900)), by=curator, part=first)
    page = signed_in(desk, curator)
    page.goto(f"/bench/{first.pk}/")
    page.locator("[data-keys]:not([hidden])").wait_for()
    axe(page)

    page.keyboard.press("t")
    page.keyboard.type("k7q2m9v")
    page.keyboard.press("Escape")
    page.keyboard.press("s")
    page.wait_for_url(f"**/bench/{second.pk}/")
    page.get_by_text(f"{first} is saved.").wait_for()
    assert Part.objects.get(pk=first.pk).tag == TAG

    page.locator("[data-keys]:not([hidden])").wait_for()
    page.keyboard.press("z")
    page.wait_for_url(f"**/bench/{first.pk}/")
    assert Part.objects.get(pk=first.pk).tag is None


def test_piece_is_named_by_an_alias_by_keyboard_alone(desk, signed_in, curator):
    box = ComponentAliasFactory(name="axlebox", component__name="journal box").component
    ComponentAliasFactory(name="buffing gear", component__name="drawhead")
    part, _ = PartFactory(), PartFactory()
    page = signed_in(desk, curator)
    page.goto(f"/bench/{part.pk}/")
    page.locator("[data-keys]:not([hidden])").wait_for()
    page.get_by_label("Search: What it is").wait_for()

    page.keyboard.press("w")
    page.keyboard.type("axlebox")
    page.keyboard.press("Enter")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Escape")
    page.keyboard.press("s")
    page.get_by_text(f"{part} is saved.").wait_for()

    part.refresh_from_db()
    assert part.component == box


def test_keys_do_nothing_in_fields_nor_when_they_are_turned_off(desk, signed_in, curator):
    part, _ = PartFactory(), PartFactory()
    page = signed_in(desk, curator)
    page.goto(f"/bench/{part.pk}/")
    page.locator("[data-keys]:not([hidden])").wait_for()

    page.get_by_label("In words").fill("")
    page.get_by_label("In words").press_sequentially("jsq")
    page.get_by_label("One key does it").uncheck()
    page.evaluate("document.activeElement.blur()")
    page.keyboard.press("j")

    assert page.url.endswith(f"/bench/{part.pk}/")
    assert page.get_by_label("In words").input_value() == "jsq"


def test_dropped_photos_become_parts_and_the_refused_one_tells_why(desk, signed_in, member, axe):
    accession = AccessionFactory(year=2026, serial=4)
    page = signed_in(desk, member)
    page.goto(f"/photos/batch/?accession={accession.pk}")

    drop(page, "orientation_1.jpg", "list.txt", "orientation_6.jpg")

    page.get_by_text("2 of 3 sent, 1 not").wait_for()
    lines = page.get_by_role("list", name="Photos sent").get_by_role("listitem")
    assert lines.nth(0).get_by_role("link").inner_text() == "2026.4.1"
    assert "This file is not a picture" in lines.nth(1).inner_text()
    assert accession.parts.count() == 2
    axe(page)


def test_progress_is_in_sight_wherever_photos_were_dropped(desk, signed_in, member):
    page = signed_in(desk, member)
    page.set_viewport_size({"width": 1280, "height": 600})
    page.goto("/photos/batch/")

    drop(page, "orientation_1.jpg", "orientation_6.jpg")
    page.get_by_text("2 of 2 sent").wait_for()

    progress = page.get_by_role("progressbar", name="All photos").bounding_box()
    assert 0 < progress["y"] < 600 - progress["height"]


def test_photos_dropped_together_can_show_one_piece(desk, signed_in, member):
    page = signed_in(desk, member)
    page.goto("/photos/batch/")
    page.get_by_label("all photos show one piece").check()

    drop(page, "list.txt", "orientation_1.jpg", "orientation_6.jpg")
    page.get_by_text("2 of 3 sent, 1 not").wait_for()
    drop(page, "orientation_3.jpg")
    page.get_by_text("3 of 4 sent, 1 not").wait_for()

    assert sorted(part.photos.count() for part in Part.objects.all()) == [1, 2]


def test_photo_without_connection_is_sent_again_and_recorded_once(desk, signed_in, member):
    page = signed_in(desk, member)
    page.goto("/photos/batch/")
    page.locator("form.is-dropping").wait_for()

    # The server takes the photo, but its answer is lost on the way.
    def lose_answer(route):
        route.fetch()
        route.abort()

    page.route("**/photos/batch/add/", lose_answer, times=1)
    drop(page, "orientation_1.jpg")
    page.get_by_role("button", name="Send it again").click()

    page.get_by_text("1 of 1 sent").wait_for()
    assert (Part.objects.count(), Photo.objects.count()) == (1, 1)


def test_photos_dropped_on_a_records_page_are_added_to_it(desk, signed_in, member):
    part = PartFactory()
    page = signed_in(desk, member)
    page.goto(f"/photos/add/part/{part.pk}/")
    page.get_by_label("What they show").select_option("damage")

    drop(page, "orientation_1.jpg", "orientation_6.jpg")

    page.get_by_text("2 of 2 sent").wait_for()
    assert [photo.role for photo in part.photos.all()] == ["damage"] * 2


@pytest.mark.parametrize("path", ["/bench/", "/tags/", "/photos/batch/"])
def test_pages_fit_a_small_phone_and_shut_nobody_out(phone, signed_in, curator, axe, path):
    PartFactory()
    page = signed_in(phone, curator)
    page.set_viewport_size({"width": 360, "height": 640})
    page.goto(path, wait_until="networkidle")

    assert page.evaluate("document.documentElement.scrollWidth") == 360
    axe(page)


def test_stock_take_shuts_nobody_out(phone, signed_in, member, axe):
    shelf = LocationFactory()
    PartFactory(location=shelf, number="2026.1.1")
    page = signed_in(phone, member)
    page.set_viewport_size({"width": 360, "height": 640})
    page.goto(f"/locations/{shelf.pk}/stock-take/", wait_until="networkidle")
    axe(page)

    page.get_by_label("What lies here").fill("2026.1.7")
    page.get_by_role("button", name="Compare").click()

    page.get_by_text("0 here as recorded, 1 missing, 0 unexpected, 1 unknown").wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    axe(page)
