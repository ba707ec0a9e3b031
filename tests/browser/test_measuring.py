"""Writing readings down on a small phone: read back, compared with others, refused in words."""

import re

import pytest

from catalog.models import Instrument, Measurement
from tests.corner import lay_out_pieces

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def page(phone, signed_in, member):
    phone.set_viewport_size({"width": 360, "height": 640})
    return signed_in(phone, member)


@pytest.fixture
def casting(db):
    return lay_out_pieces().part("casting", None)


def test_reading_is_read_back_with_all_that_makes_it_doubtful(page, casting):
    page.goto(f"/parts/{casting.pk}/measure/")
    page.get_by_label("Reading").press_sequentially("2 1/2 in")
    page.get_by_text("2½ in = 63.5 ± 3.7 mm").wait_for()

    caliper = Instrument.objects.get(slug="vernier-caliper")
    page.get_by_label("With").select_option(str(caliper.pk))
    page.get_by_text("2½ in = 63.500 ± 0.029 mm").wait_for()
    # JCGM 100, 5.1.2: 0.029 mm of the caliper and 0.5/√3 mm of the rust together.
    page.get_by_label("Rust, paint or wear").press_sequentially("0.5 mm")
    page.get_by_text("2½ in = 63.50 ± 0.29 mm").wait_for()


def test_readings_that_disagree_are_flagged_and_asked_for_again(page, casting, axe):
    for typed in ("63.60 mm", "65.20 mm"):
        page.goto(f"/parts/{casting.pk}/measure/")
        page.get_by_label("What was measured").fill("bore")
        page.get_by_label("Reading").fill(typed)
        page.get_by_role("button", name="Write it down").click()
        page.get_by_text(f"Recorded for {casting}: bore").wait_for()

    flagged = "differ by more than their uncertainty explains"
    assert page.locator(".message.warning").get_by_text(flagged).is_visible()
    assert page.locator("tr", has_text="bore together").get_by_text(flagged).is_visible()
    axe(page)
    page.goto(f"/parts/{casting.pk}/what/")
    page.get_by_text("Measure the bore again:").first.wait_for()
    axe(page)

    page.goto(casting.get_absolute_url())
    page.get_by_role("button", name=re.compile("Take it back.*bore 65.20 mm")).click()
    page.get_by_text("bore 65.20 mm is taken back.").wait_for()
    assert page.get_by_text(flagged).count() == 0


@pytest.mark.parametrize(
    ("wrong", "typed", "told"),
    [
        ("Reading", "60", "“60” has no unit. Type 60 in, 60 ft or 60 mm."),
        ("Reading", "0.000000001 mm", "is finer than any tool reads"),
        ("Reading", "1000000000 mm", "is 1000 km"),
        ("Standard uncertainty", "0 mm", "No reading is perfect"),
        ("Standard uncertainty", "-1 mm", "is below zero"),
    ],
)
def test_bad_reading_is_refused_beside_its_field_and_kept(page, casting, axe, wrong, typed, told):
    page.goto(f"/parts/{casting.pk}/measure/")
    page.get_by_label("What was measured").fill("bore")
    page.get_by_label("Reading").fill("63.60 mm")
    page.get_by_label("Note").fill("at the collar")
    page.get_by_label(wrong).fill(typed)
    page.get_by_role("button", name="Write it down").click()

    field = page.get_by_label(wrong)
    page.locator(".errorlist").get_by_text(told).wait_for()
    field.and_(page.locator(":focus")).wait_for()
    assert field.input_value() == typed
    assert page.get_by_label("Note").input_value() == "at the collar"
    assert not Measurement.objects.filter(part=casting).exists()
    axe(page)


def test_mark_without_a_letter_is_answered_in_words(page, casting):
    page.goto(f"/parts/{casting.pk}/marks/add/")
    page.get_by_label("As read").fill("–")
    page.get_by_role("button", name="Save").click()
    page.get_by_text("Write the letters and figures").wait_for()

    page.get_by_label("As read").fill("???")
    page.get_by_role("button", name="Save").click()

    page.get_by_text("No character is legible, so the mark says nothing.").first.wait_for()
