"""The instruments of the group on a small phone, by keyboard alone."""

import pytest
from django.urls import reverse

from catalog.models import Instrument
from tests.factories import PartFactory

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def page(phone, signed_in, curator):
    phone.set_viewport_size({"width": 360, "height": 640})
    return signed_in(phone, curator)


def press_through(page, typed):
    """Fill in one field after the other, going on by the tab key."""
    for text in typed:
        page.keyboard.type(text)
        page.keyboard.press("Tab")


def test_instrument_is_added_by_keyboard_and_serves_the_next_reading(page, axe):
    page.goto(reverse("instrument-list"))
    axe(page)
    page.get_by_role("link", name="Add an instrument").focus()
    page.keyboard.press("Enter")
    page.get_by_label("Name").focus()
    press_through(page, ["Telescopic gauge", "0.01 mm", "0.03 mm", "", "Set over a micrometer."])
    page.get_by_text("= 0.03 mm").wait_for()
    axe(page)
    page.keyboard.press("Enter")

    page.get_by_role("heading", name="Telescopic gauge").wait_for()
    assert page.get_by_text("± 0.017 mm").first.is_visible()
    axe(page)
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0

    page.goto(reverse("part-measure", args=[PartFactory().pk]))
    page.get_by_label("With").select_option(label="Telescopic gauge")
    page.get_by_label("Reading").press_sequentially("2 1/2 in")
    page.get_by_text("2½ in = 63.500 ± 0.017 mm").wait_for()


def test_refused_instrument_says_why_beside_the_field_and_keeps_what_was_typed(page, axe):
    page.goto(reverse("instrument-add"))
    page.get_by_label("Name").fill("Old tape")
    page.get_by_role("button", name="Save").click()

    error = page.get_by_label("Never off by more than")
    page.get_by_text("Say how far it may be off, or give its finest division.").wait_for()
    error.and_(page.locator(":focus")).wait_for()
    assert page.get_by_label("Name").input_value() == "Old tape"
    axe(page)
    assert not Instrument.objects.filter(name="Old tape").exists()
