"""The web app as a phone has it: installed, renewed, small, quick, and large enough for gloves."""

import pytest
from PIL import Image

from catalog.models import Part, Photo
from tests.browser.phones import PHOTO, READY, parts_by_words, stored_digests

pytestmark = pytest.mark.django_db(transaction=True)
# Slow 4G as browsers' own measuring tools simulate it.
SLOW_4G = {"latency": 150, "downloadThroughput": 1_638_400 / 8, "uploadThroughput": 675_000 / 8}
MOST_BYTES = 60_000


@pytest.fixture
def twelve_megapixels(tmp_path):
    place = tmp_path / "castings.jpg"
    Image.radial_gradient("L").resize((4000, 3000)).save(place, quality=90)
    return place


def test_worker_is_renewed_with_pieces_waiting(new_phone, member, shed):
    phone = new_phone(member).open()
    phone.signal(False)
    phone.save("bent strap", photo=PHOTO)
    kept = phone.kept_photos()
    shed.kill()
    shed.start(SITE_NAME="Another Name")

    phone.context.route("**/sync/**", lambda route: route.abort())
    phone.signal(True)
    phone.page.evaluate("navigator.serviceWorker.getRegistration().then((it) => it.update())")
    phone.page.wait_for_timeout(500)
    phone.signal(False)
    phone.reopen()
    assert phone.page.title() == "Take in · Another Name"
    phone.await_strip(1, 0)
    phone.context.unroute("**/sync/**")
    phone.signal(True)
    phone.await_strip(0, 1)

    assert (parts_by_words(), stored_digests()) == (["bent strap"], kept)


def test_photos_are_made_smaller_unless_originals_are_wanted(new_phone, member, twelve_megapixels):
    phone = new_phone(member).open()

    phone.save("smaller", photo=twelve_megapixels)
    phone.await_strip(0, 1)
    phone.page.get_by_text("Sent from here, and how photos are sent").click()
    phone.page.get_by_label("Send photos as the camera made them").check()
    phone.save("as it was", photo=twelve_megapixels)
    phone.await_strip(0, 2)

    widths = {photo.part.description: photo.width for photo in Photo.objects.all()}
    assert widths == {"smaller": 2560, "as it was": 4000}
    whole = Photo.objects.get(part__description="as it was")
    with whole.original.open() as file:
        assert file.read() == twelve_megapixels.read_bytes()


def test_any_page_sends_what_waits_and_says_so(new_phone, member):
    phone = new_phone(member).open()
    phone.signal(False)
    phone.save("bent strap")
    phone.context.route("**/sync/**", lambda route: route.abort())
    phone.signal(True)

    phone.page.goto("/locations/")
    phone.await_strip(1, 0)
    phone.context.unroute("**/sync/**")
    phone.press("Send now")
    phone.page.wait_for_selector("[data-queue]", state="hidden")

    assert parts_by_words() == ["bent strap"]


def test_signing_out_leaves_the_queue_and_takes_the_lists(new_phone, member, sign_in):
    phone = new_phone(member).open()
    phone.context.route("**/sync/parts/**", lambda route: route.abort())
    phone.save("bent strap")

    phone.page.goto("/locations/")
    phone.page.get_by_text("Index").click()
    phone.press("Sign out")
    phone.page.get_by_role("link", name="Sign in").wait_for()
    phone.open()
    phone.await_strip(1, 0)
    assert phone.page.locator("[name=accession] option").count() == 1
    phone.context.unroute("**/sync/parts/**")
    sign_in(phone.context, member)
    phone.reopen()
    phone.await_strip(0, 1)

    assert Part.objects.get().recorded_by == member


def watch_bytes(phone):
    network = phone.context.new_cdp_session(phone.page)
    network.send("Network.enable")
    network.send("Network.emulateNetworkConditions", {"offline": False, **SLOW_4G})
    received = []
    network.on("Network.loadingFinished", lambda one: received.append(one["encodedDataLength"]))
    return received


def test_page_is_small_at_the_first_visit(new_phone, member):
    phone = new_phone(member)
    received = watch_bytes(phone)

    phone.page.goto("/take-in/", wait_until="commit")
    phone.page.wait_for_selector(READY)

    assert 0 < sum(received) < MOST_BYTES


def test_one_tap_saves_after_the_camera_closes_and_four_name_the_piece(new_phone, member):
    phone = new_phone(member).open()
    phone.page.evaluate("addEventListener('click', () => (window.taps = (window.taps ?? 0) + 1))")
    phone.photograph()
    phone.page.get_by_text("What it is, how many, a mark").tap()
    phone.page.get_by_label("A mark").tap()
    phone.page.keyboard.type("M.F.T. 2?7")

    phone.page.get_by_role("button", name="Save this piece").tap()
    phone.await_strip(0, 1)

    assert phone.page.evaluate("window.taps") <= 4
    assert Part.objects.get().marks.get().text == "M.F.T. 2?7"


def test_page_fits_a_small_phone_and_shuts_nobody_out(new_phone, member, axe):
    phone = new_phone(member)
    phone.page.set_viewport_size({"width": 360, "height": 2600})
    phone.open()
    phone.signal(False)
    phone.save("bent strap", photo=PHOTO)
    phone.photograph()
    phone.page.get_by_text("Sent from here, and how photos are sent").click()
    axe(phone.page)

    phone.reopen()

    assert phone.page.evaluate("document.documentElement.scrollWidth") == 360
    buttons = phone.page.locator(".button:visible").all()
    assert [one.inner_text() for one in buttons if one.bounding_box()["height"] < 48] == []
