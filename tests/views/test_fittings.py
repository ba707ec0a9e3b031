"""Reserving, trying, fitting and taking off by button."""

import pytest
from django.urls import reverse

from catalog.models import Fitting, Removal, Trial
from catalog.operations.fittings import fit_part, reserve_part
from catalog.operations.removals import remove_part
from tests.factories import LocationFactory
from tests.samples import picture
from tests.tramway import lay_out_class

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop(db):
    return lay_out_class()


@pytest.fixture
def wagon(shop):
    return shop.vehicle("Wagon 14")


@pytest.fixture
def place(shop, wagon):
    return shop.position("hinge", "HL")


def put(client, place, part, act, **more):
    address = reverse("position-put", args=["wagon-14", place.pk])
    return client.post(address, {"put": f"{act} {part.pk}", **more}, follow=True)


@pytest.mark.parametrize(
    ("act", "state", "words"),
    [
        ("reserve", "reserved", "is reserved for HL of Wagon 14."),
        ("try", "trial", "is on trial at HL of Wagon 14. Record how it goes."),
        ("fit", "fitted", "is fitted at HL of Wagon 14."),
    ],
)
def test_button_brings_the_part_to_the_position(as_curator, shop, place, act, state, words):
    part = shop.part("hinge")

    answer = put(as_curator, place, part, act)

    assert Fitting.objects.get().state == state
    assert f"{part} {words}" in answer.content.decode()


def test_button_in_the_list_leads_back_to_its_line(as_curator, shop, place):
    answer = put(as_curator, place, shop.part("hinge"), "reserve", back="vehicle")

    assert answer.redirect_chain == [(f"/needed/wagon-14/#position-{place.pk}", 302)]


def test_refusal_says_who_was_first(as_curator, shop, wagon, place, steward):
    first = shop.part("hinge", number="2026.4.1")
    fit_part(first, wagon, place, by=steward)

    answer = put(as_curator, place, shop.part("hinge"), "fit")

    assert "HL of Wagon 14 already has 2026.4.1, fitted by stella on" in answer.content.decode()
    assert Fitting.objects.count() == 1


@pytest.mark.parametrize("sent", ["fit", "fit x", "burn 1", ""])
def test_nonsense_is_not_found(as_curator, shop, place, sent):
    answer = as_curator.post(reverse("position-put", args=["wagon-14", place.pk]), {"put": sent})

    assert answer.status_code == 404


def test_volunteer_may_not_fit(signed_in, shop, place):
    assert put(signed_in, place, shop.part("hinge"), "fit").status_code == 403
    assert not Fitting.objects.exists()


def test_reservation_is_given_up(as_curator, shop, wagon, place, curator):
    fitting = reserve_part(shop.part("hinge"), wagon, place, by=curator)

    as_curator.post(reverse("fitting-release", args=[fitting.pk]))

    fitting.refresh_from_db()
    assert fitting.state == "released"


def test_volunteer_records_a_trial(signed_in, shop, place):
    part = shop.part("hinge")
    address = reverse("trial-record", args=["wagon-14", place.pk, part.pk])

    shown = signed_in.get(address).content.decode()
    told = {"outcome": "not", "what_bound": "pin too thick", "photos": picture()}
    answer = signed_in.post(address, told)

    assert f"How {part} went at HL hinge of Wagon 14" in shown
    assert answer.headers["Location"] == reverse("position-detail", args=["wagon-14", place.pk])
    trial = Trial.objects.get()
    assert trial.what_bound == "pin too thick"
    assert trial.photos.get().get_absolute_url() in signed_in.get(answer.url).content.decode()


def test_trial_without_an_outcome_keeps_what_was_typed(signed_in, shop, place):
    address = reverse("trial-record", args=["wagon-14", place.pk, shop.part("hinge").pk])

    answer = signed_in.post(address, {"what_bound": "pin too thick"})

    assert 'value="pin too thick"' in answer.content.decode()
    assert not Trial.objects.exists()


def test_part_is_taken_off_with_all_that_puts_it_back(as_curator, shop, wagon, place, curator):
    fitting = fit_part(shop.part("hinge"), wagon, place, by=curator)
    shelf = LocationFactory()
    address = reverse("fitting-remove", args=[fitting.pk])

    shown = as_curator.get(address).content.decode()
    as_curator.post(address, {"orientation": "long arm up", "location": shelf.pk})

    removal = Removal.objects.get()
    assert f"Take {fitting.part} off HL hinge of Wagon 14" in shown
    assert (removal.orientation, removal.part.location) == ("long arm up", shelf)


def test_taking_off_twice_is_refused_beside_the_form(as_curator, shop, wagon, place, curator):
    fitting = fit_part(shop.part("hinge"), wagon, place, by=curator)
    remove_part(fitting, by=curator)

    answer = as_curator.post(reverse("fitting-remove", args=[fitting.pk]), {"shims": "two"})

    assert "is not fitted at HL of Wagon 14 any more: removed by cora." in answer.content.decode()
    assert 'value="two"' in answer.content.decode()


def test_removal_is_put_back(as_curator, shop, wagon, place, curator):
    removal = remove_part(fit_part(shop.part("hinge"), wagon, place, by=curator), by=curator)

    as_curator.post(reverse("removal-put-back", args=[removal.pk]))

    removal.refresh_from_db()
    assert removal.put_back_at is not None
    assert Fitting.objects.active().get().position == place
