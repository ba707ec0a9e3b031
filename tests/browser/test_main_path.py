"""The main job, as a new member does it: from a donation to a need that is met."""

import pytest

from catalog.models import Fitting, Part, Vehicle
from tests.factories import (
    ComponentAliasFactory,
    ComponentFactory,
    PositionFactory,
    VehicleClassFactory,
    VehicleFactory,
)
from tests.samples import PICTURES

pytestmark = pytest.mark.django_db(transaction=True)
TAG = "K7Q-2M9V"


@pytest.fixture
def wagon():
    box = ComponentFactory(name="journal box")
    ComponentAliasFactory(component=box, name="axlebox")
    kind = VehicleClassFactory(designation="Class E")
    PositionFactory(vehicle_class=kind, component=box, code="L1", assembly="running gear")
    return VehicleFactory(label="Wagon 14", vehicle_class=kind)


def record_donation(page):
    page.goto("/")
    page.get_by_text("Index", exact=True).click()
    page.get_by_role("link", name="Accessions").click()
    page.get_by_role("link", name="Add an accession").first.click()
    page.get_by_label("From whom").fill("Brannock Vale Transport Collection")
    page.get_by_label("What came").fill("One pallet of fittings")
    page.get_by_role("button", name="Save").click()
    page.get_by_role("heading", name="One pallet of fittings").wait_for()


def take_in_box(page):
    page.get_by_role("main").get_by_role("link", name="Take in a piece of it").click()
    page.locator("form[data-ready]").wait_for()
    page.locator("input[capture]").set_input_files(PICTURES / "orientation_6.jpg")
    page.get_by_label("Tag").fill(TAG)
    page.get_by_text("What it is, how many, a mark").click()
    page.get_by_role("searchbox", name="What it may be").fill("axlebox")
    page.locator("select[name=component]").select_option(label="journal box")
    page.locator("select[name=vehicle_class]").select_option(label="Class E")
    page.get_by_role("button", name="Save this piece").click()
    page.get_by_text("0 kept on this phone, 1 sent.").wait_for()


def fit_it(page):
    page.goto("/")
    page.get_by_role("link", name="Wagon 14").first.click()
    page.get_by_role("link", name="Needs", exact=True).click()
    page.get_by_text("A part in hand fits").first.wait_for()
    page.get_by_role("link", name="journal box").first.click()
    page.get_by_role("button", name="Fit").first.click()
    page.get_by_role("link", name="Wagon 14").first.click()
    page.get_by_text("1 of 1 essential positions").first.wait_for()


@pytest.mark.parametrize("where", ["phone", "desk"])
def test_donated_box_meets_the_need_of_a_wagon(request, signed_in, curator, wagon, where, axe):
    page = signed_in(request.getfixturevalue(where), curator)

    record_donation(page)
    take_in_box(page)
    part = Part.objects.get()
    fit_it(page)
    axe(page)

    assert (part.tag, part.number, str(part.component)) == (TAG, "2026.1.1", "journal box")
    assert part.photos.count() == 1
    assert Fitting.objects.get().vehicle == Vehicle.objects.get(label="Wagon 14")
