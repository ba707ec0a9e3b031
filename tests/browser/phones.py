"""Drive the phone page for taking in: save pieces, wait for what the strip says, look inside."""

import os
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path
from signal import SIGKILL

from catalog.models import Part, Photo
from tests.samples import PICTURES

READY = "form[data-capture][data-ready]"
PHOTO = PICTURES / "orientation_6.jpg"
SLOW = 40_000
KEPT_PHOTOS = """async () => {
  const open = indexedDB.open("catalog");
  const db = await new Promise((resolve) => (open.onsuccess = () => resolve(open.result)));
  const found = db.transaction("photos").objectStore("photos").getAll();
  const photos = await new Promise((resolve) => (found.onsuccess = () => resolve(found.result)));
  db.close();
  return photos.map(({ sha256 }) => sha256).sort();
}"""


class Phone:
    """A page on a phone, and what a volunteer does with it."""

    def __init__(self, page):
        self.page = page
        self.context = page.context

    def open(self, address="/take-in/"):
        """Open the page and wait until it also would open without a signal."""
        self.page.goto(address)
        self.page.wait_for_selector(f"{READY}[data-listed]")
        self.page.evaluate("navigator.serviceWorker.ready.then(() => undefined)")
        return self

    def reopen(self, address="/take-in/"):
        self.page.goto(address)
        self.page.wait_for_selector(READY)

    def photograph(self, file=PHOTO):
        """Take a photo and wait until it is on the phone."""
        before = self.page.locator(".photo-previews li").count()
        self.page.locator("input[capture]").set_input_files(file)
        self.page.locator(".photo-previews li").nth(before).wait_for()

    def fill(self, label, text):
        self.page.get_by_label(label).fill(text)

    def save(self, words="", tag="", photo=None):
        """Save a piece, and wait until the page is ready for the next one."""
        if photo:
            self.photograph(photo)
        self.fill("In words", words)
        self.page.locator("[name=tag]").fill(tag)
        self.press_save()

    def press_save(self):
        before = int(self.page.locator(READY).get_attribute("data-saved") or 0)
        self.press("Save this piece")
        self.page.wait_for_selector(f"{READY}[data-saved='{before + 1}']")

    def press(self, name):
        self.page.get_by_role("button", name=name).click()

    def signal(self, there):
        self.context.set_offline(not there)

    def weak_signal(self, bytes_per_second=SLOW):
        network = self.context.new_cdp_session(self.page)
        rates = {"uploadThroughput": bytes_per_second, "downloadThroughput": -1}
        network.send("Network.enable")
        network.send("Network.emulateNetworkConditions", {"offline": False, "latency": 0, **rates})

    def await_strip(self, kept, sent):
        self.await_words(f"{kept} kept on this phone, {sent} sent.")

    def await_words(self, words):
        self.page.get_by_text(words).first.wait_for()

    def kept_photos(self):
        return self.page.evaluate(KEPT_PHOTOS)

    @contextmanager
    def sending_a_photo(self):
        """Wait, after what is done inside, until a photo is on its way."""
        with self.page.expect_request("**/photos/**"):
            yield
        self.page.wait_for_timeout(300)


def kill_browser(profile: Path):
    """Kill the browser of a profile as a phone kills it, and clear away its lock."""
    lock = profile / "SingletonLock"
    os.kill(int(str(lock.readlink()).rpartition("-")[2]), SIGKILL)
    for leftover in profile.glob("Singleton*"):
        leftover.unlink()


def parts_by_words():
    return sorted(Part.objects.values_list("description", flat=True))


def stored_digests():
    """Return the digests of the photos on the server, computed from the very files."""
    digests = []
    for photo in Photo.objects.order_by("pk"):
        with photo.original.open("rb") as file:
            digests.append(sha256(file.read()).hexdigest())
        assert digests[-1] == photo.sha256
    return sorted(digests)
