"""Overlong words, other scripts and pictures in a name leave every page as wide as the phone."""

import pytest
from django.urls import reverse

from tests.factories import (
    ComponentFactory,
    PartyFactory,
    SourceFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db(transaction=True)
NAME = f"🚂 צריח {'Trunnionbearingcapbolt' * 3}"


@pytest.fixture
def addresses():
    kind = VehicleClassFactory(designation=NAME[:60], slug="bolts")
    made = {
        "component": ComponentFactory(name=NAME, slug="bolt"),
        "party": PartyFactory(name=NAME),
        "source": SourceFactory(title=NAME),
        "vehicle": VehicleFactory(label=NAME, slug="bolt", vehicle_class=kind),
    }
    found = [kind.get_absolute_url()]
    for kind, record in made.items():
        found += [reverse(f"{kind}-list"), record.get_absolute_url()]
        found += [
            reverse(f"record-{act}", args=[kind, record.pk]) for act in ("history", "withdraw")
        ]
    return [*found, reverse("source-change", args=[made["source"].pk])]


def test_no_page_of_a_record_is_wider_than_the_phone(phone, signed_in, steward, addresses):
    page = signed_in(phone, steward)
    page.set_viewport_size({"width": 360, "height": 640})

    def width_of(address):
        page.goto(address)
        return page.evaluate("document.documentElement.scrollWidth")

    assert {address: width for address in addresses if (width := width_of(address)) > 360} == {}


def test_overlong_word_in_a_message_breaks(phone, signed_in, steward):
    page = signed_in(phone, steward)
    page.set_viewport_size({"width": 360, "height": 640})
    page.goto(reverse("component-add"))

    page.get_by_label("Name", exact=True).fill(NAME)
    page.get_by_role("button", name="Save", exact=True).tap()

    page.locator(".message").wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") == 360
