"""From the shop's page to a wanted sheet in four taps, and an answer from outside."""

import pytest

from catalog.models import Answer, Source, Want
from catalog.operations.wants import publish_want
from tests.factories import AnswerFactory, WantFactory
from tests.tramway import lay_out_shop

pytestmark = pytest.mark.django_db(transaction=True)


def test_wanted_sheet_is_in_hand_in_four_taps(phone, signed_in, curator, axe):
    lay_out_shop()
    page = signed_in(phone, curator)
    page.goto("/")
    axe(page)

    strip = page.locator("article.strip", has=page.get_by_role("link", name="Wagon 31", exact=True))
    strip.get_by_role("link", name="What would finish it").tap()
    page.wait_for_url("**/needed/wagon-31/**")
    axe(page)
    answer = page.get_by_role("heading", name="What would finish it")
    assert answer.bounding_box()["y"] < page.viewport_size["height"] / 2
    page.get_by_role("link", name="Ask for 2 journal boxes").tap()
    page.wait_for_url("**/wants/add/**")
    page.get_by_role("button", name="Save").tap()
    page.get_by_text("is written down").wait_for()
    axe(page)
    sheet = page.get_by_role("link", name="Wanted sheet, A4")

    assert Want.objects.get().title == "Journal box for Wagon 31"
    assert (
        page.request.get(sheet.get_attribute("href")).headers["content-type"] == "application/pdf"
    )


def test_reader_answers_a_want(phone, curator, axe):
    want = publish_want(WantFactory(title="Drawhead", words="Of cast iron."), by=curator)
    page = phone
    page.goto("/wanted/")
    axe(page)
    page.get_by_role("link", name="Drawhead").tap()
    page.wait_for_url("**/wanted/drawhead/")
    axe(page)

    page.get_by_label("What do you have, or know?").fill("One lies behind our barn.")
    page.get_by_label("Your name").fill("Ada Skarn")
    page.get_by_label("How we can reach you").fill("ada@skarn.example")
    page.get_by_label("The group may keep this answer").check()
    page.wait_for_timeout(4000)
    page.get_by_role("button", name="Send it").tap()

    page.get_by_role("heading", name="Thank you").wait_for()
    answer = Answer.objects.get()
    assert (answer.want, answer.name) == (want, "Ada Skarn")


def test_answer_becomes_a_survivor_to_measure_by_keyboard(desk, signed_in, steward, axe):
    AnswerFactory(want=WantFactory(title="Drawhead for Wagon 22"), name="Ada Skarn")
    page = signed_in(desk, steward)
    page.goto("/")
    press(page, page.get_by_role("link", name="answer to a want"))
    press(page, page.get_by_role("link", name="Ada Skarn"))
    press(page, page.get_by_text("It tells us something"))
    axe(page)
    press(page, page.get_by_role("button", name="Make it a source"))
    page.get_by_text("is a source now").wait_for()
    axe(page)

    press(page, page.get_by_role("link", name="What to measure when you go"))
    page.wait_for_url("**/survivors/**")
    axe(page)

    source = Source.objects.get()
    assert (source.kind, source.holder.name) == (Source.Kind.SURVIVOR, "Ada Skarn")
    assert "Ada Skarn" not in source.title


def press(page, target):
    """Come to what is asked for by keyboard, and press Enter there."""
    target.focus()
    page.keyboard.press("Enter")


def test_plan_pages_and_chart_shut_nobody_out(phone, signed_in, curator, axe):
    lay_out_shop()
    page = signed_in(phone, curator)
    usual = page.viewport_size
    # The bar at the foot lies over whatever is scrolled beneath it, so all is looked at in one.
    page.set_viewport_size({**usual, "height": 2600})
    page.goto("/plans/new/")
    axe(page)
    page.set_viewport_size(usual)
    page.get_by_label("Name of the plan").fill("Autumn")
    page.get_by_role("button", name="Work it out").tap()
    page.get_by_text("no other use of what is in hand does better").wait_for()
    axe(page)

    for address in ("/plans/", "/needed/one-more/", "/needed/over-time/", "/survivors/", "/wants/"):
        page.goto(address)
        axe(page)
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
