"""The page for taking in, as it is without a signal: what it remembers, finds, reads and refuses."""

import json
from uuid import uuid4

import pytest
from PIL import Image

from catalog.models import Part, Photo
from catalog.operations.captures import take_in
from catalog.reckoning.codes import normalize_tag_code, tag_problem
from tests.browser.phones import PHOTO, Phone, stored_digests
from tests.factories import (
    AccessionFactory,
    ComponentAliasFactory,
    ComponentFactory,
    LocationFactory,
)

pytestmark = pytest.mark.django_db(transaction=True)
TAG = "K7Q-2M9V"


def test_draft_comes_back_with_its_photo_after_the_page_died(new_phone, member):
    phone = new_phone(member).open()
    phone.signal(False)
    phone.photograph()
    phone.page.get_by_label("What orientation_6.jpg shows").select_option("mark")
    phone.fill("In words", "bent strap")
    phone.page.wait_for_timeout(100)

    phone.reopen()

    assert phone.page.get_by_label("In words").input_value() == "bent strap"
    role = phone.page.get_by_label("What orientation_6.jpg shows")
    assert role.input_value() == "mark"
    phone.press_save()
    phone.signal(True)
    phone.await_strip(0, 1)
    assert (Part.objects.get().description, Photo.objects.get().role) == ("bent strap", "mark")


def test_axlebox_finds_the_journal_box_without_a_signal(new_phone, member):
    box = ComponentAliasFactory(name="axlebox", component__name="journal box").component
    ComponentAliasFactory(name="buffing gear", component__name="drawhead")
    phone = new_phone(member).open()
    phone.signal(False)
    phone.reopen()

    phone.page.get_by_text("What it is, how many, a mark").click()
    phone.page.get_by_label("Search: What it may be").fill("axlebox")
    choice = phone.page.locator("[name=component]")
    assert choice.locator("option").all_inner_texts() == ["not known yet", "journal box"]
    choice.select_option("journal box")
    phone.save("found by its British name")
    phone.signal(True)
    phone.await_strip(0, 1)

    assert Part.objects.get().component == box


def test_nothing_is_recorded_that_nobody_said(new_phone, member):
    ComponentFactory.create_batch(3)
    LocationFactory.create_batch(3)
    AccessionFactory.create_batch(3)
    phone = new_phone(member).open()

    for visit in ("first", "without a signal"):
        phone.save(f"strap, {visit}")
        phone.signal(False)
        phone.reopen()
    phone.signal(True)
    phone.await_strip(0, 2)

    said = Part.objects.values_list("component", "location", "accession", "vehicle_class")
    assert list(said) == [(None, None, None, None)] * 2


def test_letters_typed_to_search_choose_nothing(new_phone, member):
    ComponentFactory(name="journal box")
    ComponentFactory(name="journal brass")
    phone = new_phone(member).open()
    phone.page.get_by_text("What it is, how many, a mark").click()
    search = phone.page.get_by_label("Search: What it may be")

    search.press_sequentially("journal bo")
    for _ in "journal bo":
        search.press("Backspace")
    assert phone.page.locator("[name=component]").input_value() == ""
    phone.page.locator("[name=component]").select_option("journal box")
    search.fill("brass")
    phone.save("a box all the same")
    phone.await_strip(0, 1)

    assert str(Part.objects.get().component) == "journal box"


def test_donation_and_place_stay_for_the_next_piece(new_phone, member):
    AccessionFactory(year=2026, serial=4, summary="a pallet")
    LocationFactory(name="Rack 2")
    phone = new_phone(member).open()
    phone.signal(False)
    phone.page.locator("[name=accession]").select_option("2026.4 · a pallet")
    phone.page.locator("[name=location]").select_option("Rack 2")

    phone.save("bent strap")
    phone.reopen()
    phone.page.get_by_text("From the last piece: 2026.4 · a pallet, Rack 2").wait_for()
    phone.save("long bolt")
    phone.signal(True)
    phone.await_strip(0, 2)

    assert list(Part.objects.values_list("number", flat=True)) == ["2026.4.1", "2026.4.2"]
    assert {str(part.location) for part in Part.objects.all()} == {"Rack 2"}


def test_full_phone_says_so_and_keeps_the_words(own_browser, member, shed, tmp_path):
    photo = tmp_path / "large.jpg"
    Image.effect_noise((900, 900), 90).save(photo, quality=95)
    phone = Phone(own_browser(member).pages[0])
    storage = phone.context.new_cdp_session(phone.page)
    # Set before the page is opened, since Chromium looks at it again only after a while.
    quota = {"origin": shed.url, "quotaSize": 600_000}
    storage.send("Storage.overrideQuotaForOrigin", quota)
    phone.open()
    phone.fill("In words", "bent strap")

    phone.page.locator("input[capture]").set_input_files(photo)
    phone.await_words("This phone is full: the last photo could not be kept.")
    assert phone.page.get_by_label("In words").input_value() == "bent strap"
    phone.photograph(PHOTO)
    phone.press_save()
    phone.await_strip(0, 1)

    assert (Part.objects.get().description, len(stored_digests())) == ("bent strap", 1)


def test_queue_can_be_saved_as_a_file(new_phone, member):
    phone = new_phone(member).open()
    phone.signal(False)
    phone.save("bent strap", tag=TAG, photo=PHOTO)
    phone.page.get_by_text("Sent from here, and how photos are sent").click()

    with phone.page.expect_download() as download:
        phone.press("Save a copy of what waits")

    [piece] = json.loads(download.value.path().read_text())["pieces"]
    assert (piece["values"]["description"], piece["values"]["tag"]) == ("bent strap", TAG)
    assert [photo["sha256"] for photo in piece["photos"]] == phone.kept_photos()
    assert piece["photos"][0]["file"].startswith("data:")


def test_tag_scanned_without_a_signal_opens_a_piece_under_it(new_phone, member):
    phone = new_phone(member).open()
    phone.signal(False)

    phone.reopen(f"/t/{TAG}/")

    assert phone.page.locator("[name=tag]").input_value() == TAG


def test_page_that_needs_a_signal_says_so_and_offers_what_works(new_phone, member):
    phone = new_phone(member).open()
    phone.signal(False)

    phone.reopen("/vehicles/")

    phone.await_words("The page you asked for needs a signal. Taking in works without one.")


def test_slip_in_a_tag_is_seen_while_the_tag_is_in_the_hand(new_phone, member):
    phone = new_phone(member).open()
    phone.fill("In words", "bent strap")
    phone.page.locator("[name=tag]").fill("K7Q-29MV")

    phone.press("Save this piece")

    phone.await_words("One character of K7Q-29MV is wrong, or two have changed places")
    assert phone.kept_photos() == []
    assert not Part.objects.exists()


def test_phone_judges_tags_as_the_catalog_does(new_phone, member):
    texts = ["", "k7q 2m9v", "K7Q-29MV", "K7O-2M9V", "K7Q-2M9", "K7Q-2M28", "/t/K7Q-2M9V/", "Ä"]
    phone = new_phone(member).open()

    judged = phone.page.evaluate(
        """async (texts) => {
          const [address] = performance.getEntriesByType("resource")
            .map(({ name }) => name).filter((name) => name.includes("/capture/tags"));
          const { normalTag, tagProblem } = await import(address);
          return texts.map((text) => [normalTag(text), tagProblem(text)]);
        }""",
        texts,
    )

    assert judged == [[normalize_tag_code(t), (t and tag_problem(t)) or ""] for t in texts]


def test_nothing_at_all_is_not_kept(new_phone, member):
    phone = new_phone(member).open()

    phone.press("Save this piece")

    phone.await_words("Take one photo, or write one line of words.")
    phone.await_strip(0, 0)


def test_page_says_what_was_taken_in_last(new_phone, member):
    take_in(by=member, description="bent strap", capture_id=uuid4())
    phone = new_phone(member).open()
    phone.signal(False)
    phone.reopen()

    phone.page.get_by_text("Sent from here, and how photos are sent").click()

    assert "bent strap" in phone.page.locator("[data-kept-last]").inner_text()
