"""Taking in without a signal: whatever dies, each piece is there once or still on the phone."""

import pytest
from PIL import Image

from catalog.models import Part, Photo
from tests.browser.phones import PHOTO, Phone, kill_browser, parts_by_words, stored_digests
from tests.samples import PICTURES

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def large_photo(tmp_path):
    """Make a photo whose sending over a weak signal takes seconds."""
    place = tmp_path / "castings.jpg"
    Image.effect_noise((640, 480), 90).save(place, quality=90)
    return place


def test_piece_taken_in_with_a_signal_is_sent_at_once(new_phone, member):
    phone = new_phone(member).open()

    phone.save("bent strap", photo=PHOTO)
    phone.await_strip(0, 1)

    assert parts_by_words() == ["bent strap"]
    assert len(stored_digests()) == 1


def test_page_opened_without_a_signal_keeps_pieces_until_there_is_one(new_phone, member):
    phone = new_phone(member).open()
    phone.signal(False)
    phone.reopen()

    phone.save("bent strap", photo=PHOTO)
    phone.await_strip(1, 0)
    kept = phone.kept_photos()
    phone.reopen()
    phone.await_strip(1, 0)
    phone.signal(True)
    phone.await_strip(0, 1)

    assert parts_by_words() == ["bent strap"]
    assert stored_digests() == kept


def test_signal_lost_before_saving_loses_nothing(new_phone, member):
    phone = new_phone(member).open()
    phone.photograph()
    phone.signal(False)

    phone.save("bent strap")
    phone.save("long bolt")
    phone.await_strip(2, 0)
    kept = phone.kept_photos()
    phone.signal(True)
    phone.await_strip(0, 2)

    assert list(Part.objects.order_by("pk").values_list("description", flat=True)) == [
        "bent strap",
        "long bolt",
    ]
    assert Photo.objects.get().part.description == "bent strap"
    assert stored_digests() == kept


def test_server_killed_in_the_middle_of_a_photo(new_phone, member, shed, large_photo):
    phone = new_phone(member).open()
    phone.photograph(large_photo)
    kept = phone.kept_photos()
    phone.weak_signal()

    with phone.sending_a_photo():
        phone.save("bent strap")
    shed.kill()
    phone.await_strip(1, 0)
    phone.await_words("No way to the catalog now")
    assert (parts_by_words(), Photo.objects.count()) == (["bent strap"], 0)
    shed.start()
    phone.weak_signal(-1)
    phone.press("Send now")
    phone.await_strip(0, 1)

    assert parts_by_words() == ["bent strap"]
    assert stored_digests() == kept


def test_page_closed_in_the_middle_of_a_photo(new_phone, member, large_photo):
    phone = new_phone(member).open()
    phone.photograph(large_photo)
    kept = phone.kept_photos()
    phone.weak_signal()

    with phone.sending_a_photo():
        phone.save("bent strap")
    phone.page.close()
    assert Photo.objects.count() == 0
    phone.page = phone.context.new_page()
    phone.reopen()
    phone.await_strip(0, 1)

    assert parts_by_words() == ["bent strap"]
    assert stored_digests() == kept


def test_five_pieces_outlive_the_browser_and_are_sent_once(own_browser, member, tmp_path):
    phone = Phone(own_browser(member).pages[0]).open()
    phone.signal(False)
    for number in (1, 3, 6, 8, 5):
        phone.save(f"piece {number}", photo=PICTURES / f"orientation_{number}.jpg")
    phone.await_strip(5, 0)
    kept = phone.kept_photos()

    kill_browser(tmp_path)
    phone = Phone(own_browser(member).pages[0])
    phone.reopen()
    phone.await_strip(0, 5)

    assert parts_by_words() == [f"piece {number}" for number in (1, 3, 5, 6, 8)]
    assert stored_digests() == kept
    assert {(photo.width, photo.height) for photo in Photo.objects.all()} == {(640, 480)}


def test_two_open_pages_send_each_piece_once(new_phone, member):
    phone = new_phone(member).open()
    second = phone.context.new_page()
    second.goto("/take-in/")
    phone.signal(False)
    phone.save("bent strap", photo=PHOTO)
    phone.save("long bolt", photo=PICTURES / "orientation_1.jpg")
    kept = phone.kept_photos()
    sent = []
    phone.context.on("request", lambda request: sent.append(request.method))

    phone.signal(True)
    phone.await_strip(0, 2)

    assert sent.count("PUT") == 4
    assert parts_by_words() == ["bent strap", "long bolt"]
    assert stored_digests() == kept
