"""What can go wrong in the very middle of sending: each piece is there once, each photo whole."""

import pytest
from django.contrib.auth.hashers import PBKDF2PasswordHasher
from django.contrib.sessions.models import Session
from PIL import Image

from catalog.models import Part, Photo
from tests.browser.phones import PHOTO, Phone, kill_browser, parts_by_words, stored_digests
from tests.samples import PICTURES

pytestmark = pytest.mark.django_db(transaction=True)
TAG = "K7Q-2M9V"
# Each thing that is sent goes out three times at the same moment.
THREEFOLD = """
  const once = window.fetch;
  window.fetch = (address, options) =>
    options?.method === "PUT"
      ? Promise.all([1, 2, 3].map(() => once(address, options))).then(([answer]) => answer)
      : once(address, options);
"""

# Something else fills the phone, in ever smaller pieces until not even a few letters fit.
FILL_UP = """async () => {
  const open = indexedDB.open("something else", 1);
  open.onupgradeneeded = () => open.result.createObjectStore("junk", { autoIncrement: true });
  const db = await new Promise((resolve) => (open.onsuccess = () => resolve(open.result)));
  const put = (size) => new Promise((resolve) => {
    const writing = db.transaction("junk", "readwrite");
    writing.objectStore("junk").put(crypto.getRandomValues(new Uint8Array(size)));
    writing.oncomplete = () => resolve(true);
    writing.onabort = () => resolve(false);
  });
  for (let size = 65_536; size >= 1; ) if (!(await put(size))) size = Math.floor(size / 2);
  db.close();
}"""
MAKE_SPACE = """() => new Promise((resolve) => {
  indexedDB.deleteDatabase("something else").onsuccess = () => resolve();
})"""


@pytest.fixture
def large_photo(tmp_path_factory):
    """Make a photo whose sending over a weak signal takes seconds."""
    place = tmp_path_factory.mktemp("camera") / "castings.jpg"
    Image.effect_noise((640, 480), 90).save(place, quality=90)
    return place


def test_browser_killed_in_the_middle_of_a_photo(own_browser, member, tmp_path, large_photo):
    phone = Phone(own_browser(member).pages[0]).open()
    phone.photograph(large_photo)
    kept = phone.kept_photos()
    phone.weak_signal()

    with phone.sending_a_photo():
        phone.save("bent strap")
    kill_browser(tmp_path)
    assert (parts_by_words(), Photo.objects.count()) == (["bent strap"], 0)
    phone = Phone(own_browser(member).pages[0])
    phone.reopen()
    phone.await_strip(0, 1)

    assert parts_by_words() == ["bent strap"]
    assert stored_digests() == kept


def test_same_piece_sent_three_times_at_once(new_phone, member):
    phone = new_phone(member)
    phone.context.add_init_script(THREEFOLD)
    phone.open()
    phone.signal(False)
    phone.photograph(PICTURES / "orientation_1.jpg")
    phone.save("bent strap", tag=TAG, photo=PHOTO)
    kept = phone.kept_photos()
    answers = []
    phone.context.on("response", lambda answer: answers.append(answer))

    phone.signal(True)
    phone.await_strip(0, 1)

    sent = [answer.status for answer in answers if answer.request.method == "PUT"]
    assert (len(sent), set(sent) <= {200, 201}) == (9, True)
    assert parts_by_words() == ["bent strap"]
    assert stored_digests() == kept


def test_session_that_expires_between_a_piece_and_its_photo(new_phone, member):
    # The server knows this way of keeping passwords; the tests have a quicker one.
    member.password = PBKDF2PasswordHasher().encode("marrow-fell", salt="salt", iterations=1)
    member.save()
    phone = new_phone(member).open()
    phone.signal(False)
    phone.save("bent strap", photo=PHOTO)
    kept = phone.kept_photos()

    def expire(route):
        Session.objects.all().delete()
        route.continue_()

    phone.context.route("**/photos/**", expire, times=1)
    phone.signal(True)
    phone.await_words("Sign in again to send; nothing is lost.")
    assert (parts_by_words(), phone.kept_photos()) == (["bent strap"], kept)
    phone.page.get_by_role("link", name="Sign in to send").tap()
    phone.fill("Username", member.username)
    phone.fill("Password", "marrow-fell")
    phone.press("Sign in")
    phone.await_strip(0, 1)

    assert parts_by_words() == ["bent strap"]
    assert stored_digests() == kept


def test_phone_filled_to_the_last_byte_loses_nothing(own_browser, member, shed):
    phone = Phone(own_browser(member).pages[0])
    storage = phone.context.new_cdp_session(phone.page)
    # Set before the page is opened, since Chromium looks at it again only after a while.
    quota = {"origin": shed.url, "quotaSize": 3_000_000}
    storage.send("Storage.overrideQuotaForOrigin", quota)
    phone.open()
    phone.signal(False)
    phone.photograph()
    kept = phone.kept_photos()
    phone.page.evaluate(FILL_UP)

    phone.fill("In words", "bent strap")
    phone.press("Save this piece")
    phone.await_words("This phone is full")
    assert phone.page.get_by_label("In words").input_value() == "bent strap"
    assert phone.kept_photos() == kept
    phone.page.evaluate(MAKE_SPACE)
    phone.press_save()
    phone.signal(True)
    phone.await_strip(0, 1)

    assert parts_by_words() == ["bent strap"]
    assert stored_digests() == kept


def test_two_phones_that_claim_one_tag_at_the_same_moment(new_phone, member):
    phones = [new_phone(member).open(), new_phone(member).open()]
    kept = []
    for number, phone in enumerate(phones, 1):
        phone.signal(False)
        phone.save(f"piece {number}", tag=TAG, photo=PICTURES / f"orientation_{number}.jpg")
        kept += phone.kept_photos()

    for phone in phones:
        phone.signal(True)
    for phone in phones:
        phone.page.get_by_text("0 kept").or_(
            phone.page.get_by_text("must be mended")
        ).first.wait_for()
    left = [digest for phone in phones for digest in phone.kept_photos()]

    assert Part.objects.get().tag == TAG
    assert len(left) == 1
    assert sorted([*stored_digests(), *left]) == sorted(kept)
