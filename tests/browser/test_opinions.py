"""Saying what pieces are, and a second person who thinks otherwise, on a small phone."""

import pytest

from catalog.models import Part
from tests.corner import lay_out_pieces

pytestmark = pytest.mark.django_db(transaction=True)
SMALL = {"width": 360, "height": 640}


@pytest.fixture
def corner():
    corner = lay_out_pieces()
    corner.part("casting", None)
    return corner


def fits_the_screen(page):
    return page.evaluate("document.documentElement.scrollWidth") == page.viewport_size["width"]


def propose(page, part, component):
    page.goto(part.get_absolute_url())
    page.get_by_text("Say what it is", exact=True).click()
    form = page.locator("form[action$='/identify/']")
    form.get_by_role("searchbox", name="What it is").press_sequentially(component[:5])
    form.locator("select[name$=component]").select_option(label=component)
    form.get_by_label("Reasons").fill("Two bolts, as on the drawing.")
    form.get_by_role("button", name="Say so").click()
    page.get_by_text("A second person has to look too.").wait_for()


def test_second_person_disputes_with_reasons_and_may_agree_after_all(
    phone, signed_in, member, curator, corner, axe
):
    part = corner.parts["casting"]
    phone.set_viewport_size(SMALL)
    propose(signed_in(phone, member), part, "journal box")
    page = signed_in(phone, curator)
    page.goto(part.get_absolute_url())
    page.get_by_role("link", name="I think otherwise").click()
    page.get_by_role("button", name="Say so").click()
    page.get_by_text("Say why you think otherwise.").wait_for()
    # The focus is set by a behavior of the page, which comes after its words.
    page.locator("[name=reasons]:focus").wait_for()
    axe(page)

    page.get_by_label("Your reasons").fill("It has no place for an axle.")
    page.get_by_role("button", name="Say so").click()

    page.get_by_text("It is now disputed.").wait_for()
    page.get_by_text("thinks otherwise: It has no place for an axle.").wait_for()
    assert Part.objects.get(pk=part.pk).identification_status == "disputed"
    assert fits_the_screen(page)
    axe(page)
    page.get_by_role("button", name="I agree after all").click()
    page.get_by_text("It is now agreed.").wait_for()


def test_lot_and_a_loose_piece_are_named_together_and_taken_back(
    phone, signed_in, member, corner, axe
):
    corner.part("lot", None, quantity=9)
    phone.set_viewport_size(SMALL)
    page = signed_in(phone, member)
    page.goto("/parts/unidentified/")
    page.get_by_role("link", name="Name several at once").click()
    page.get_by_role("button", name="Choose all 2 on this page").click()
    page.get_by_role("button", name="Identify or move 2 chosen").click()
    page.get_by_text("9 pieces (unidentified)").wait_for()
    axe(page)

    page.locator("select[name=identify-component]").select_option(label="journal box")
    page.get_by_role("button", name="Say so of all").click()

    page.get_by_text("You say of 2 parts (10 pieces): journal box.").wait_for()
    assert Part.objects.filter(identification_status="proposed").count() == 2
    assert fits_the_screen(page)
    page.get_by_role("button", name="Undo").click()
    page.get_by_text("Taken back of 2 parts.").wait_for()
    assert Part.objects.filter(identification_status="unidentified").count() == 2
