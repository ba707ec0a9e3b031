"""Coming back to the shop: what others did, where a piece is now, and how much came."""

import datetime as dt

import pytest
from django.utils import timezone

from catalog.operations.captures import take_in
from catalog.operations.moves import move_part
from catalog.operations.visits import note_visit
from tests.factories import AccessionFactory, LocationFactory, PartFactory, VehicleFactory

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def shelf():
    shop = LocationFactory(name="Shop", kind="building")
    rack = LocationFactory(name="Rack B", kind="rack", parent=shop, path="Shop › Rack B")
    return LocationFactory(name="Shelf 1", parent=rack, path="Shop › Rack B › Shelf 1")


@pytest.fixture
def brass(shelf, member, curator):
    """Let a piece come in and be moved by another while the member was away."""
    note_visit(member, at=timezone.now() - dt.timedelta(days=2))
    accession = AccessionFactory(year=2026, serial=1)
    part = take_in(by=curator, description="bearing brass", accession=accession)
    move_part(part, location=shelf, by=curator)
    return part


def test_from_the_news_to_the_piece_and_its_place_on_the_map(phone, signed_in, member, brass, axe):
    page = signed_in(phone, member)
    page.goto("/")
    axe(page)
    page.get_by_role("link", name="1 part moved").tap()
    page.wait_for_url("**/changes/?since=*kind=moved")
    axe(page)

    page.get_by_role("link", name="2026.1.1 bearing brass").tap()
    page.get_by_role("link", name="On the map").tap()
    page.wait_for_url("**/locations/map/?words=2026.1.1")
    assert page.get_by_text("bearing brass is at Shop › Rack B › Shelf 1.").is_visible()
    axe(page)
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    page.locator(".shed-plan.narrow .is-found > a").tap()
    page.wait_for_url("**/locations/*/")

    assert page.get_by_role("heading", name="Shop › Rack B › Shelf 1").is_visible()


def test_map_is_searched_and_read_by_keyboard_alone(desk, signed_in, member, brass, shelf):
    page = signed_in(desk, member)
    page.goto("/locations/map/")
    page.get_by_label("Where is it?").focus()
    page.keyboard.type("brass")
    page.keyboard.press("Enter")
    page.wait_for_url("**words=brass")

    row = page.get_by_role("row", name="Shelf 1 found here")
    row.get_by_role("link").focus()
    page.keyboard.press("Enter")

    page.wait_for_url(f"**{shelf.get_absolute_url()}")


def test_months_shut_nobody_out_on_a_small_phone(open_page, signed_in, member, brass, axe):
    page = signed_in(open_page(viewport={"width": 360, "height": 640}), member)
    for address in ("/accessions/months/", "/accessions/", "/locations/map/", "/changes/"):
        page.goto(address)
        axe(page)
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0


def test_counts_and_kinds_keep_together_in_the_table_of_the_map(
    open_page, signed_in, member, shelf
):
    PartFactory.create_batch(12, location=shelf)
    LocationFactory(name="Brannock Vale pallet by the far door", kind="box", parent=shelf.parent)
    VehicleFactory(home_location=LocationFactory(name="Yard", kind="outdoors"))
    page = signed_in(open_page(viewport={"width": 360, "height": 640}), member)

    page.goto("/locations/map/")

    heights = page.locator(".plain-table .amount, .plain-table .nowrap").evaluate_all(
        """cells => cells.map(cell => {
            const words = document.createRange();
            words.selectNodeContents(cell);
            return words.getBoundingClientRect().height;
        })"""
    )
    assert len(heights) > 12
    assert max(heights) < 30
