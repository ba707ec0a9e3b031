"""Look at every building block on a phone and a desk, on paper and as a blueprint."""

import pytest
from django.urls import reverse

LEAST_THUMB = 48


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 1280])
def test_styleguide_shuts_nobody_out(open_page, signed_in, member, axe, width, scheme):
    page = signed_in(
        open_page(viewport={"width": width, "height": 800}, color_scheme=scheme), member
    )

    page.goto(reverse("styleguide"))

    axe(page)
    assert page.evaluate("document.documentElement.scrollWidth") == width


def test_controls_are_large_enough_for_gloves(phone, signed_in, member):
    page = signed_in(phone, member)

    page.goto(reverse("styleguide"))

    controls = page.locator(".button:visible, a.chip:visible, .thumb-bar a, .field select:visible")
    heights = [control.bounding_box()["height"] for control in controls.all()]
    assert len(heights) > 10
    assert min(heights) >= LEAST_THUMB


def test_last_field_is_not_hidden_by_the_bars(open_page, signed_in, member):
    options = {"viewport": {"width": 360, "height": 640}, "reduced_motion": "reduce"}
    page = signed_in(open_page(**options), member)
    page.goto(reverse("styleguide"))

    page.locator("#id_picture").focus()

    field, actions = (
        page.locator("#id_picture").bounding_box(),
        page.locator(".actions").bounding_box(),
    )
    assert field["y"] + field["height"] <= actions["y"]


def test_theme_is_kept_from_page_to_page(phone, signed_in, member):
    page = signed_in(phone, member)
    page.goto(reverse("styleguide"))
    page.locator(".menu summary").click()

    page.get_by_role("button", name="Paper or blueprint").click()
    page.reload()

    assert page.evaluate("document.documentElement.dataset.theme") == "dark"


def test_choices_are_found_by_a_few_letters(phone, signed_in, member):
    page = signed_in(phone, member)
    page.goto(reverse("styleguide"))

    page.get_by_role("searchbox", name="Search: What is it?").fill("DRAW")

    assert page.locator("#id_component option").all_inner_texts() == ["not known yet", "drawhead"]


def test_menu_closes_by_escape_and_gives_the_focus_back(phone, signed_in, member):
    page = signed_in(phone, member)
    page.goto(reverse("styleguide"))
    page.locator(".menu summary").click()
    page.locator(".menu").get_by_role("link").first.wait_for()
    page.keyboard.press("Tab")

    page.keyboard.press("Escape")

    assert page.locator(".menu").get_attribute("open") is None
    assert page.evaluate("document.activeElement.tagName") == "SUMMARY"
