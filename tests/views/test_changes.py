"""The page of everything that changed between two days."""

import datetime as dt

import pytest
from django.urls import reverse
from django.utils import timezone

from catalog.models import Visit
from catalog.operations.captures import take_in
from catalog.operations.moves import move_part
from catalog.operations.visits import end_visit, note_visit
from tests.factories import LocationFactory, PartFactory

pytestmark = pytest.mark.django_db

PAGE = reverse("changes")


def today(days=0):
    return (timezone.localdate() + dt.timedelta(days=days)).isoformat()


def test_address_without_days_leads_to_one_that_can_be_sent(signed_in):
    answer = signed_in.get(f"{PAGE}?kind=moved")

    assert answer.headers["Location"] == f"{PAGE}?since={today(-7)}&until={today()}&kind=moved"


def test_it_begins_with_the_last_visit(signed_in, member):
    note_visit(member, at=timezone.now() - dt.timedelta(days=30))
    end_visit(member)
    note_visit(member)

    assert f"since={today(-30)}&" in signed_in.get(PAGE).headers["Location"]


def test_days_are_whole_days(signed_in, curator):
    take_in(by=curator, description="sand valve")

    shown = signed_in.get(PAGE, {"since": today(), "until": today()}).content.decode()
    earlier = signed_in.get(PAGE, {"since": today(-3), "until": today(-1)}).content.decode()

    assert "sand valve</a>: taken in" in shown
    assert "Nothing changed in these days." in earlier


def test_one_kind_by_one_person(signed_in, member, curator):
    move_part(take_in(by=curator, description="sand valve"), location=LocationFactory(), by=member)

    asked = {"since": today(), "kind": "moved", "person": member.pk}
    mine = signed_in.get(PAGE, asked).content.decode()
    theirs = signed_in.get(PAGE, {**asked, "person": curator.pk}).content.decode()

    assert ("1 part moved" in mine, "taken in" in mine) == (True, False)
    assert "Nothing changed in these days." in theirs


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ({"since": "2026-04-02", "until": "2026-04-01"}, "The last day is before the first."),
        ({"since": "yesterday"}, "Enter a valid date."),
        ({"since": "2026-04-02", "kind": "heard"}, "is not one of the available choices"),
        ({"since": "2026-04-02", "person": "999"}, "is not one of the available choices"),
    ],
)
def test_what_cannot_be_asked_is_answered_in_words(signed_in, asked, words):
    page = signed_in.get(PAGE, asked).content.decode()

    assert words in page
    assert "Nothing changed in these days." not in page


@pytest.mark.parametrize("who", ["client", "as_visitor"])
def test_visitors_see_nothing_of_it(request, who, curator):
    take_in(by=curator, description="sand valve")

    answer = request.getfixturevalue(who).get(PAGE, {"since": today()})

    assert answer.status_code in (302, 403)
    assert b"sand valve" not in answer.content


def test_it_takes_the_same_queries_for_one_and_three(signed_in, curator, count_queries):
    def grow():
        move_part(PartFactory(), location=LocationFactory(), by=curator)
        take_in(by=curator, description="sand valve")

    grow()
    one = count_queries(signed_in, f"{PAGE}?since={today()}")
    grow()
    grow()

    assert count_queries(signed_in, f"{PAGE}?since={today()}") == one


def test_opening_it_is_no_visit_of_the_shop(signed_in):
    signed_in.get(PAGE, {"since": today()})

    assert not Visit.objects.exists()
