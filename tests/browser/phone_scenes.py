"""What happens on the phone before a picture of it is taken: pieces saved, kept, refused and sent."""

from playwright.sync_api import BrowserContext, Page

from tests.project_files import ROOT

PHOTOS = ROOT / "fixtures" / "demonstration" / "photos"
TAG = "K7Q-2M9V"
PALLET = (
    ("26_unidentified_a.jpg", "bracket with a sheave"),
    ("16_strap_hinge.jpg", "strap, bent at the end"),
    ("23_coupling_pin.jpg", ""),
    ("24_volute_spring.jpg", "found under the hinges"),
    ("19_door_latch_hook.jpg", "hook, part of a lock"),
)


def get_ready(page: Page) -> None:
    """Wait until the page would open without a signal too."""
    page.locator("form[data-ready][data-listed]").wait_for()
    page.evaluate("navigator.serviceWorker.ready.then(() => undefined)")


def photograph(page: Page, name: str) -> None:
    before = page.locator(".photo-previews li").count()
    page.locator("input[capture]").set_input_files(PHOTOS / name)
    page.locator(".photo-previews li").nth(before).wait_for()


def save(page: Page, photo: str, words: str, tag: str = "") -> None:
    photograph(page, photo)
    page.get_by_label("In words").fill(words)
    page.locator("[name=tag]").fill(tag)
    page.get_by_role("button", name="Save this piece").click()
    page.locator(".photo-previews li").wait_for(state="detached")


def await_words(page: Page, words: str) -> None:
    page.get_by_text(words).first.wait_for()


def show_top(page: Page) -> None:
    # A button that was pressed keeps the look of one under the finger.
    page.mouse.move(0, 0)
    page.evaluate("document.activeElement.blur(); scrollTo(0, 0)")


def without_signal(page: Page) -> BrowserContext:
    get_ready(page)
    page.context.set_offline(True)
    page.goto("/take-in/")
    page.locator("form[data-ready]").wait_for()
    return page.context


def take_one_in(page: Page) -> None:
    get_ready(page)
    photograph(page, "26_unidentified_a.jpg")
    page.get_by_label("Tag").fill(TAG)
    page.get_by_label("In words").fill("bracket with a sheave")
    show_top(page)


def open_the_rest(page: Page) -> None:
    get_ready(page)
    page.get_by_text("What it is, how many, a mark").click()
    page.get_by_label("Search: What it may be").fill("axlebox")
    page.locator("[name=component]").select_option("journal box")
    page.get_by_label("A mark").fill("M.F.T. 2?7")


def keep_five(page: Page) -> None:
    without_signal(page)
    for photo, words in PALLET:
        save(page, photo, words)
    await_words(page, "5 kept on this phone, 0 sent.")
    show_top(page)


def send_five(page: Page) -> None:
    keep_five(page)
    page.context.set_offline(False)
    await_words(page, "0 kept on this phone, 5 sent.")
    show_top(page)


def ask_to_sign_in(page: Page) -> None:
    context = without_signal(page)
    for photo, words in PALLET[:2]:
        save(page, photo, words)
    context.clear_cookies(name="sessionid")
    context.set_offline(False)
    await_words(page, "Sign in again to send")
    show_top(page)


def refuse_one(page: Page) -> None:
    get_ready(page)
    save(page, *PALLET[0], tag=TAG)
    await_words(page, "0 kept on this phone, 1 sent.")
    save(page, *PALLET[1], tag=TAG)
    await_words(page, "1 piece must be mended below.")
    page.context.set_offline(True)
    save(page, *PALLET[4])
    await_words(page, "2 kept on this phone, 1 sent.")


def note_a_move(page: Page) -> None:
    page.get_by_label("Tag of the location").fill("K7Q-2M28")
    page.get_by_label("Parts, one a line").fill("2026.1.17\n2026.1.18\n2026.1.19")
    show_top(page)


def compare_shelf(page: Page) -> None:
    page.get_by_label("What lies here, one a line").fill("2026.1.5\n2026.1.6\n2026.1.1\nK7Q-2M28")
    page.get_by_role("button", name="Compare").click()
    page.wait_for_load_state()


def settle_photos(page: Page) -> None:
    """Bring a few photos from a camera to a donation."""
    names = ("05_journal_box_large.jpg", "07_bearing_brass.jpg", "24_volute_spring.jpg")
    page.locator("input[type=file]").set_input_files([PHOTOS / name for name in names])
    await_words(page, "3 of 3 sent")
    show_top(page)
