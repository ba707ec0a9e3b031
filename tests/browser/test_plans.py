"""A plan with castings and one without, made with a thumb, compared, applied and undone."""

import re
from itertools import pairwise

import pytest

from catalog.models import Component, Fitting
from tests.tramway import lay_out_shop

pytestmark = pytest.mark.django_db(transaction=True)

CASTINGS = "New pieces made from patterns in hand"


def make(page, name, *counted_on):
    page.goto("/plans/new/")
    page.get_by_label("Name of the plan").fill(name)
    for words in counted_on:
        page.get_by_text(words).tap()
    page.get_by_role("button", name="Work it out").tap()
    page.wait_for_url(re.compile(r"/plans/\d+/$"))


def test_plan_with_castings_is_made_compared_applied_and_undone(phone, signed_in, curator, axe):
    lay_out_shop()
    Component.objects.filter(name="drawhead").update(making_hours=18)
    page = signed_in(phone, curator)
    make(page, "As it is")
    make(page, "With castings", CASTINGS)
    page.get_by_text("Can be completed by making 1 drawhead.").wait_for()
    page.get_by_text("54 hours").first.wait_for()
    axe(page)

    page.get_by_role("button", name="Compare").tap()
    page.wait_for_url("**/plans/compare/**")
    page.get_by_text("Loses: it waits").first.wait_for()
    axe(page)
    page.go_back()
    page.get_by_role("button", name="as planned").tap()
    page.get_by_text("Still to be made, and no part of the record yet: 3 drawheads.").wait_for()
    assert Fitting.objects.active().filter(part__number="2026.4.3").count() == 0
    page.get_by_role("button", name="Undo: give up what nobody has touched").tap()
    page.get_by_text("given up again.").wait_for()


def test_each_choice_of_a_plan_is_a_row_for_a_gloved_finger(open_page, signed_in, curator):
    lay_out_shop()
    page = signed_in(open_page(viewport={"width": 360, "height": 640}), curator)
    page.goto("/plans/new/")

    rows = [label.bounding_box() for label in page.locator(".choice-rows label:has(input)").all()]

    assert len(rows) == 6
    assert all(row["height"] >= 48 and row["width"] >= 300 for row in rows)
    assert all(below["y"] - row["y"] - row["height"] >= 8 for row, below in pairwise(rows))
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
