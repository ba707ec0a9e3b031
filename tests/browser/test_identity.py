"""From the loose part to a settled answer, on a phone: open, read, measure, see it settle."""

import pytest

from tests.corner import lay_out_pieces

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def corner():
    corner = lay_out_pieces()
    corner.part("casting", None)
    return corner


def test_suggested_measurement_settles_what_a_loose_part_is(phone, signed_in, member, corner, axe):
    page = signed_in(phone, member)
    page.goto(corner.parts["casting"].get_absolute_url())
    page.get_by_role("link", name="What it may be").first.click()
    page.get_by_role("heading", name="Measure next").wait_for()
    for row in page.locator("details.measure-next > summary").all():
        row.click()
    form = page.locator("form", has=page.get_by_role("button", name="Record the bore"))

    form.get_by_label("Reading").fill("64.10 mm")
    page.get_by_text("64.100 ± 0.029 mm").first.wait_for()
    axe(page)
    form.get_by_role("button").click()

    page.get_by_text("Now: Almost certainly a class E bearing brass").wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= 412
    page.get_by_role("link", name="What it fits").first.click()
    page.get_by_text("It is held here to be a class E bearing brass").wait_for()
    axe(page)


def test_suggested_measurement_settles_what_a_loose_brass_fits(
    phone, signed_in, member, corner, axe
):
    page = signed_in(phone, member)
    page.goto(corner.parts["worn brass"].get_absolute_url())
    page.get_by_role("link", name="What it fits").first.click()
    unknown = corner.parts["unmeasured wheelset"].number
    page.get_by_text(f"{unknown} is unknown: measure the journal diameter").first.wait_for()
    form = page.locator("form", has=page.get_by_role("button", name="Record the journal diameter"))

    form.get_by_label("With").select_option(label="Vernier caliper")
    form.get_by_label("Reading").fill("63.50 mm")
    page.get_by_text("63.500 ± 0.029 mm").first.wait_for()
    axe(page)
    form.get_by_role("button").click()

    page.get_by_text(f"Recorded for {unknown}: journal diameter 63.500 ± 0.029 mm. Now:").wait_for()
    assert page.get_by_text(f"{unknown} is unknown").count() == 0
    axe(page)


def test_trial_on_the_bench_outranks_arithmetic(desk, signed_in, member, corner, axe):
    page = signed_in(desk, member)
    page.goto(f"/parts/{corner.parts['worn brass'].pk}/fits/")
    page.get_by_role("link", name=str(corner.parts["foreign wheelset"])).first.click()
    page.get_by_role("heading", name="Do they go together").wait_for()
    axe(page)

    page.get_by_label("did not go").check()
    page.get_by_label("What bound").fill("the collar")
    page.get_by_role("button", name="Record the trial").click()

    page.get_by_text("it was tried and did not go: the collar").first.wait_for()
