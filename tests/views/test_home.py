"""The home page: the shop today, or what is published."""

import datetime as dt
import re
from threading import Event, Thread

import pytest
from django.db import connection, transaction
from django.urls import reverse
from django.utils import timezone

from catalog.models import Accession, Fitting, Part, Visit
from catalog.operations.captures import take_in
from catalog.operations.visits import note_visit
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

    answer = signed_in.get(reverse("home"))

    assert waiting(answer) == {
        "identification disputed": 1,
        "identifications awaiting a second person": 2,
        "parts without a tag": 2,
        "part without a location": 1,
        "line of a donor at odds with what came": 1,
        "deed not signed yet": 1,
    }


def test_answers_wait_for_stewards_and_lead_to_their_list(as_steward):
    AnswerFactory()

    answer = as_steward.get(reverse("home"))

    (told,) = answer.context["shop"].waiting
    assert (told.words, told.url) == ("answer to a want, not acknowledged", "/answers/")
    assert answer.content.decode().count('href="/answers/"') == 2


def test_curator_is_not_told_of_what_only_stewards_see_to(as_curator):
    AnswerFactory()

    answer = as_curator.get(reverse("home"))

    assert waiting(answer) == {}
    assert 'href="/answers/"' not in answer.content.decode()


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


def test_home_promises_nothing_to_a_vehicle_that_is_away(signed_in):
    vehicle = VehicleFactory(status="away")
    PositionFactory(vehicle_class=vehicle.vehicle_class)

    page = signed_in.get(reverse("home")).content.decode()

    assert "Away from the group: the plan leaves it out" in page
    assert "What would finish it" not in page


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


@pytest.fixture
def back_again(signed_in, member):
    """Return the client of a member who was here yesterday."""
    note_visit(member, at=timezone.now() - dt.timedelta(days=1))
    return signed_in


def home_of(client, **headers):
    return client.get(reverse("home"), headers=headers).content.decode()


def test_first_visit_tells_what_happened_lately(signed_in, curator):
    take_in(by=curator, description="sand valve")

    page = home_of(signed_in)

    assert ("Lately" in page, "Since your last visit" in page) == (True, False)
    assert Visit.objects.count() == 1


def test_next_visit_tells_what_others_did_and_goes_on_doing_so(back_again, curator, member):
    take_in(by=member, description="my own bolt")
    take_in(by=curator, description="sand valve")

    for page in (home_of(back_again), home_of(back_again)):
        assert "1 part taken in</a>" in page
        assert "sand valve</a>: taken in" in page
        assert "my own bolt" not in page


def test_quiet_days_are_told_too(back_again):
    assert "<p>Nothing.</p>" in home_of(back_again)


@pytest.mark.parametrize(
    "headers",
    [{"Sec-Purpose": "prefetch;prerender"}, {"Purpose": "prefetch"}, {"X-Moz": "prefetch"}],
)
def test_page_fetched_ahead_is_no_visit(signed_in, headers):
    home_of(signed_in, **headers)

    assert not Visit.objects.exists()


def test_look_at_what_visitors_see_is_no_visit(signed_in):
    signed_in.get(reverse("home"), {"as": "visitor"})
    signed_in.head(reverse("home"))

    assert not Visit.objects.exists()


def test_signing_out_ends_the_visit(back_again, curator, member):
    home_of(back_again)
    back_again.post(reverse("logout"))
    take_in(by=curator, description="sand valve")
    back_again.force_login(member)

    assert "sand valve</a>: taken in" in home_of(back_again)
    assert timezone.now() - Visit.objects.get().since < dt.timedelta(minutes=1)


def test_when_somebody_was_here_is_shown_to_nobody_else(back_again, as_steward, member):
    when = Visit.objects.get(member=member).opened_at.strftime("%Y-%m-%dT%H:%M")

    for name in ("home", "member-list"):
        assert when not in as_steward.get(reverse(name)).content.decode()


@pytest.mark.parametrize("who", ["client", "as_visitor"])
def test_visitors_leave_no_visits_and_see_no_news(request, who, curator):
    take_in(by=curator, description="sand valve")

    page = home_of(request.getfixturevalue(who))

    assert ("sand valve" in page, "What changed" in page) == (False, False)
    assert not Visit.objects.exists()


@pytest.mark.django_db(transaction=True)
def test_page_does_not_wait_for_a_long_list_that_is_read_in(back_again):
    before = Visit.objects.get()
    begun = Event(), Event()

    def read_in_a_long_list():
        with transaction.atomic():
            Accession.objects.create(year=2026, serial=1)
            begun[0].set()
            begun[1].wait(30)
        connection.close()

    writer = Thread(target=read_in_a_long_list)
    writer.start()
    begun[0].wait(30)
    try:
        page = home_of(back_again)
        noted = Visit.objects.get()
    finally:
        begun[1].set()
        writer.join()

    assert "Since your last visit" in page
    # Where each row is held by itself, nobody had to wait, and the visit is noted at once.
    assert (noted.opened_at == before.opened_at) == (connection.vendor == "sqlite")
