"""Pictures zoomed together: by two fingers, by keys, by buttons and by the mouse."""

import re

import pytest

from catalog.operations.photos import add_photo
from tests.corner import lay_out_pieces
from tests.samples import picture

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def address(member):
    corner = lay_out_pieces()
    for name in ("worn wheelset", "foreign wheelset"):
        add_photo(picture(size=(400, 300)), by=member, part=corner.parts[name])
    return f"/parts/{corner.parts['worn wheelset'].pk}/compare/"


def open_board(page, address):
    page.goto(address)
    page.get_by_text("1.0 times").wait_for()
    return page


def view(page):
    """Return how the pictures are moved and enlarged, which has to be the same for all."""
    found = page.locator(".zoom-frame > *").evaluate_all(
        "pictures => pictures.map(picture => picture.style.transform)"
    )
    assert len(found) == 2
    assert len(set(found)) == 1
    return [float(number) for number in re.findall(r"-?\d+(?:\.\d+)?", found[0])]


def about(across, down, zoom):
    """Allow for a finger that lies between two pixels."""
    moved = (pytest.approx(percent, abs=1.5) for percent in (across, down))
    return [*moved, pytest.approx(zoom, abs=0.01)]


def wait_until(page, expression):
    """Ask again and again; the page's own policy lets no text become a script that waits in it."""
    for _ in range(200):
        if page.evaluate(expression):
            return
        page.wait_for_timeout(50)
    pytest.fail(f"never came true: {expression}")


def scroll_to_the_end(page):
    page.evaluate("scrollTo({ top: document.body.scrollHeight, behavior: 'instant' })")
    wait_until(page, "scrollY + innerHeight > document.body.scrollHeight - 2")


def fingers(page, *moves):
    """Lay fingers on the screen, move them, hold them still, and lift them.

    Fingers lifted in motion set a page gliding, and the next tap would only stop that.
    """
    session = page.context.new_cdp_session(page)
    first, *later = moves
    steps = [("touchStart", first), *(("touchMove", move) for move in [*later, moves[-1]])]
    for kind, places in [*steps, ("touchEnd", [])]:
        page.wait_for_timeout(150)
        points = [{"x": x, "y": y, "id": number} for number, (x, y) in enumerate(places)]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})


def test_two_fingers_enlarge_all_pictures_about_their_middle(
    phone, signed_in, member, address, axe
):
    phone.set_viewport_size({"width": 360, "height": 640})
    page = open_board(signed_in(phone, member), address)
    scroll_to_the_end(page)
    box = page.locator(".zoom-frame").first.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2

    fingers(page, [(x - 20, y), (x + 20, y)], [(x - 40, y), (x + 40, y)])
    page.get_by_text("2.0 times").wait_for()
    assert view(page) == about(-50, -50, 2)

    fingers(page, [(x, y)], [(x + box["width"] / 4, y)])
    wait_until(page, "document.querySelector('.zoom-frame > *').style.transform.includes('-2')")
    assert view(page) == about(-25, -50, 2)
    page.get_by_role("button", name="Whole pictures").tap()
    page.get_by_text("1.0 times").wait_for()
    assert view(page) == about(0, 0, 1)
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    axe(page)


def test_own_photo_stays_in_sight_above_the_others_on_a_phone(phone, signed_in, member, address):
    phone.set_viewport_size({"width": 360, "height": 640})
    page = open_board(signed_in(phone, member), address)
    scroll_to_the_end(page)

    frames = page.locator(".zoom-frame")
    own, beneath = frames.first.bounding_box(), frames.last.bounding_box()

    assert 0 <= own["y"] < own["y"] + own["height"] <= beneath["y"]


def test_keys_zoom_and_look_around(desk, signed_in, member, address, axe):
    page = open_board(signed_in(desk, member), address)
    page.get_by_role("button", name="Larger").focus()

    for key, expected in [
        ("+", about(-25, -25, 1.5)),
        ("ArrowLeft", about(-10, -25, 1.5)),
        ("ArrowDown", about(-10, -40, 1.5)),
        ("-", about(0, 0, 1)),
    ]:
        page.keyboard.press(key)
        assert view(page) == expected
    page.keyboard.press("+")
    page.keyboard.press("0")
    assert view(page) == about(0, 0, 1)
    axe(page)


def test_arrow_keys_scroll_the_page_until_something_is_enlarged(desk, signed_in, member, address):
    desk.set_viewport_size({"width": 1280, "height": 400})
    page = open_board(signed_in(desk, member), address)
    page.get_by_role("button", name="Larger").focus()
    before = page.evaluate("scrollY")

    page.keyboard.press("ArrowDown")

    wait_until(page, f"scrollY > {before}")
    assert view(page) == about(0, 0, 1)


def test_buttons_and_mouse_zoom_all_pictures(desk, signed_in, member, address):
    page = open_board(signed_in(desk, member), address)
    for name in ("Larger", "Look right"):
        page.get_by_role("button", name=name).click()
    assert view(page) == about(-40, -25, 1.5)
    page.get_by_role("button", name="Whole pictures").click()

    page.locator(".zoom-frame").first.dblclick()

    page.get_by_text("2.0 times").wait_for()
    assert view(page) == about(-50, -50, 2)
