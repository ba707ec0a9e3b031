"""The home page: the shop today, or what is published."""

import re

import pytest
from django.urls import reverse

from catalog.models import Fitting, Part
from tests.factories import (
    AccessionFactory,
    AnswerFactory,
    ComponentFactory,
    FittingFactory,
    LocationFactory,
    PartFactory,
    PositionFactory,
    StatedLineFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


def waiting(answer):
    return {waiting.words: waiting.count for waiting in answer.context["shop"].waiting}


def test_home_of_an_empty_catalog_says_where_to_begin(signed_in):
    answer = signed_in.get(reverse("home"))

    assert waiting(answer) == {}
    assert "No vehicle is recorded yet." in answer.content.decode()


def test_what_is_typed_at_the_top_is_found(signed_in):
    part = PartFactory(number="2026.4.17")
    page = signed_in.get(reverse("home")).content.decode()
    address, field = re.search(
        r'class="shop-find" action="(.+?)".*?name="(.+?)"', page, re.S
    ).groups()

    answer = signed_in.get(address, {field: "2026.4.17"})

    assert answer.headers["Location"] == part.get_absolute_url()


def test_home_counts_what_waits_for_a_person(signed_in):
    hinge = ComponentFactory()
    PartFactory(component=hinge, identification_status=Part.Standing.DISPUTED, tag="K7Q-2M9V")
    PartFactory.create_batch(
        2, component=hinge, identification_status=Part.Standing.PROPOSED, location=LocationFactory()
    )
    StatedLineFactory(accession=AccessionFactory(title_status="unsigned"), component=hinge)
    AnswerFactory()

    answer = signed_in.get(reverse("home"))

    assert waiting(answer) == {
        "identification disputed": 1,
        "identifications awaiting a second person": 2,
        "parts without a tag": 2,
        "part without a location": 1,
        "line of a donor at odds with what came": 1,
        "deed not signed yet": 1,
        "answer to a want, not acknowledged": 1,
    }


def test_a_fitted_part_is_at_its_place_and_a_trial_waits(signed_in):
    hinge = ComponentFactory()
    known = {"component": hinge, "identification_status": Part.Standing.AGREED}
    FittingFactory(part=PartFactory(**known, tag="K7Q-2M9V"))
    FittingFactory(
        part=PartFactory(**known, tag="K7Q-2M9W", location=LocationFactory()),
        state=Fitting.State.TRIAL,
    )

    assert waiting(signed_in.get(reverse("home"))) == {"part on trial, to be decided": 1}


def test_withdrawn_parts_wait_for_nobody(signed_in):
    PartFactory(withdrawn_at="2026-04-02T10:00:00Z")

    assert waiting(signed_in.get(reverse("home"))) == {}


def test_home_shows_each_vehicle_with_its_positions(signed_in):
    vehicle = VehicleFactory(label="Wagon 14")
    PositionFactory(vehicle_class=vehicle.vehicle_class)

    page = signed_in.get(reverse("home")).content.decode()

    assert f'<a href="{vehicle.get_absolute_url()}">Wagon 14</a>' in page
    assert "0 of 1 essential positions" in page


@pytest.mark.parametrize("who", ["client", "as_visitor"])
def test_visitors_see_published_vehicles_only(request, who):
    VehicleFactory(label="Wagon 14", is_published=True)
    VehicleFactory(label="Wagon 22")

    page = request.getfixturevalue(who).get(reverse("home")).content.decode()

    assert "Wagon 14" in page
    assert "Wagon 22" not in page
    assert "Waits for a person" not in page


def test_home_takes_the_same_queries_for_one_and_three(signed_in, count_queries):
    def grow():
        vehicle = VehicleFactory()
        PositionFactory(vehicle_class=vehicle.vehicle_class)
        FittingFactory(vehicle=vehicle)
        StatedLineFactory(component=ComponentFactory())

    grow()
    one = count_queries(signed_in, reverse("home"))
    grow()
    grow()

    assert count_queries(signed_in, reverse("home")) == one
