"""A curator tells a story with a phone, reads what is doubtful in it, and prints the sheet."""

from io import BytesIO

import pytest
from playwright.sync_api import expect
from pypdf import PdfReader

from catalog.models import Removal
from catalog.operations.fittings import fit_part
from tests.factories import VehicleFactory
from tests.samples import PICTURES
from tests.tramway import lay_out_class

pytestmark = pytest.mark.django_db(transaction=True)
TOLD = [
    ("built", "about 1899", {"To": "Marrow Fell Tramway"}),
    ("sold", "spring 1929", {"From": "Marrow Fell Tramway", "To": "J. Pellow"}),
    ("listed or seen", "March 1930", {"To": "Marrow Fell Tramway"}),
    ("acquired by the group", "9 April 2011", {"From": "Rowan Ashdown"}),
]


def fits_the_width(page):
    return page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")


def tell(page, kind, when, parties):
    page.get_by_label("What happened").select_option(label=kind)
    page.get_by_label("When", exact=False).first.fill(when)
    for label, name in parties.items():
        page.get_by_label(label, exact=False).first.fill(name)


def test_four_vague_facts_show_a_gap_and_a_contradiction_and_are_printed(
    phone, signed_in, curator, axe
):
    vehicle = VehicleFactory(label="Kestrel")
    page = signed_in(phone, curator)
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto(f"/provenance/vehicle/{vehicle.pk}/add/")
    axe(page)

    for kind, when, parties in TOLD[:-1]:
        tell(page, kind, when, parties)
        page.get_by_role("button", name="Save, and add another").click()
        page.get_by_text(f"Recorded: {kind} {when}.").wait_for()
    tell(page, *TOLD[-1])
    page.get_by_role("button", name="Save", exact=True).click()

    expect(page.get_by_role("heading", name="These cannot all be true")).to_be_visible()
    gap = "Nothing is known of any owner between J. Pellow and Rowan Ashdown, for at least 81 years"
    expect(page.get_by_text(gap).first).to_be_visible()
    assert fits_the_width(page)
    axe(page)
    pdf = PdfReader(BytesIO(page.request.get(f"/print/vehicle/{vehicle.pk}/sheet/").body()))
    words = " ".join(" ".join(one.extract_text() for one in pdf.pages).split())
    assert [told for told in ("These cannot all be true", gap) if told not in words] == []


def test_piece_is_taken_off_and_put_back_on_one_page(phone, signed_in, curator, axe):
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14")
    for code in ("L1", "R1"):
        place = shop.position("journal box", code)
        fit_part(shop.part("journal box"), wagon, place, by=curator)
    page = signed_in(phone, curator)
    page.goto(f"/vehicles/{wagon.slug}/dismantling/")
    axe(page)

    page.get_by_role("link", name="Take off L1 journal box").click()
    page.get_by_label("Photos of how it sat").set_input_files(sorted(PICTURES.glob("*.jpg"))[0])
    page.get_by_label("Which way round").fill("lid outward")
    page.get_by_label("Tag tied on").fill("k7q2m9v")
    page.get_by_role("button", name="It is off").click()

    expect(page.get_by_text("lid outward")).to_be_visible()
    expect(page.get_by_text("K7Q-2M9V", exact=True)).to_be_visible()
    assert fits_the_width(page)
    page.get_by_role("button", name="L1 journal box is back on").click()
    expect(page.get_by_role("heading", name="Back on again")).to_be_visible()
    assert Removal.objects.get().put_back_at is not None
