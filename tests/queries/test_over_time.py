"""How complete the vehicles were over time."""

import datetime as dt

import pytest
from django.urls import reverse

from catalog.models import Part
from catalog.operations.fittings import fit_part
from catalog.operations.removals import remove_part
from catalog.queries.over_time import over_time
from catalog.reckoning.completeness import Step
from tests.factories import LONG_AGO
from tests.tramway import lay_out_class

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop(curator):
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14")
    for days, code in ((0, "A"), (10, "B")):
        part, place = shop.part("drawhead"), shop.position("drawhead", code)
        fit_part(part, wagon, place, by=curator, at=LONG_AGO + dt.timedelta(days=days))
    return shop


def course(shop, days=20):
    found = over_time(shop.vehicles.values(), at=LONG_AGO + dt.timedelta(days=days))
    return found.courses[0]


def test_fittings_make_the_steps(shop):
    found = course(shop)

    first = LONG_AGO.date()
    assert found.steps == (Step(first, 1), Step(first + dt.timedelta(days=10), 2))
    assert found.words == "From 1 on 1 April 2026 to 2 of 6 essential positions"


def test_line_is_drawn_over_the_whole_stretch(shop):
    assert course(shop).line == "M0 100H0.0V83.3H300.0V66.7H600"
    assert course(shop).area == "M0 100H0.0V83.3H300.0V66.7H600V100Z"


def test_what_is_taken_off_counts_no_more(shop, curator):
    part = Part.objects.order_by("pk").first()
    remove_part(part.fittings.get(), by=curator, at=LONG_AGO + dt.timedelta(days=15))

    assert [step.filled for step in course(shop).steps] == [1, 2, 1]


def test_page_draws_each_vehicle_with_its_table(signed_in, shop, count_queries):
    words = signed_in.get(reverse("over-time")).content.decode()
    few = count_queries(signed_in, reverse("over-time"))
    shop.vehicle("Wagon 22", journal_box=("L1",))
    shop.vehicle("Wagon 31")

    assert "<title id=" in words
    assert "Wagon 14: essential positions filled, of 6" in words
    assert count_queries(signed_in, reverse("over-time")) == few
    assert "Nothing was fitted yet" in signed_in.get(reverse("over-time")).content.decode()


def test_page_without_vehicles_says_so(signed_in):
    assert "No vehicle is recorded yet." in signed_in.get(reverse("over-time")).content.decode()
