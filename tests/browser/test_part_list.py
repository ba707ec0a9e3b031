"""The list of parts on a small phone: dense, and still for thumbs in gloves."""

import pytest

from tests.factories import ComponentFactory, LocationFactory, PartFactory

pytestmark = pytest.mark.django_db(transaction=True)
TARGET = 48
# How many entries stand whole between the head of the list and the bars below.
WHOLE = """(list) => {
  list.querySelector("caption").scrollIntoView({ behavior: "instant" });
  const bars = [...document.querySelectorAll(".actions, .thumb-bar")];
  const end = Math.min(...bars.map((bar) => bar.getBoundingClientRect().top));
  const boxes = [...list.querySelectorAll("tbody tr")].map((row) => row.getBoundingClientRect());
  return boxes.filter(({ top, bottom }) => top >= 0 && bottom <= end).length;
}"""


@pytest.fixture
def parts():
    box, shelf = ComponentFactory(name="journal box"), LocationFactory(name="Wagon shop, rack B")
    known = {"component": box, "identification_status": "agreed", "usability": "ready"}
    said = {"location": shelf, "description": "with its lid and half a brass"}
    return [
        PartFactory(number=f"2026.4.{one}", quantity=one, **known, **said)
        for one in range(9, 0, -1)
    ]


@pytest.fixture
def page(open_page, signed_in, member, parts):
    page = signed_in(open_page(viewport={"width": 360, "height": 640}, has_touch=True), member)
    page.goto("/parts/")
    return page


def test_small_phone_shows_four_parts_at_once(page):
    assert page.locator("table").evaluate(WHOLE) >= 4


def test_tapping_beside_the_number_opens_the_part_and_the_box_chooses_it(page):
    entry = page.locator("tbody tr").nth(1)
    label = entry.locator("label").bounding_box()
    assert min(label["width"], label["height"]) >= TARGET

    entry.locator("label").tap()
    assert entry.locator("input").is_checked()
    address = entry.locator("a").get_attribute("href")
    # The link lies over the words, which Playwright would call in the way.
    entry.locator(".what").tap(force=True)

    page.wait_for_url(f"**{address}")
