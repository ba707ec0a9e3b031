"""History, putting back, withdrawing and bringing back, for whatever record."""

import pytest
from django.urls import reverse

from catalog.models import Party
from catalog.operations.moves import move_part
from catalog.operations.parties import change_party, record_party
from catalog.operations.record import change, latest_version
from tests.factories import LocationFactory, PartFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def party(curator):
    party = record_party({"name": "Ada Skarn", "place": "Skarn"}, by=curator)
    return change_party(party, {"name": "Ada Skarn", "place": "Tolvane"}, by=curator)


def test_history_shows_who_changed_what(as_curator, party):
    page = as_curator.get(reverse("record-history", args=["party", party.pk])).content.decode()

    assert "<del>Skarn</del> → <ins>Tolvane</ins>" in page
    assert "cora" in page


def test_restore_puts_the_record_back_and_keeps_the_way(as_curator, party):
    first = party.history.earliest().pk

    as_curator.post(reverse("record-restore", args=["party", party.pk, first]))

    party.refresh_from_db()
    assert party.place == "Skarn"
    assert party.history.count() == 3


def test_withdraw_needs_a_reason(as_curator, party):
    answer = as_curator.post(reverse("record-withdraw", args=["party", party.pk]), {"reason": " "})

    assert answer.status_code == 200
    assert Party.objects.kept().count() == 1


def test_withdrawn_record_leaves_the_list_and_can_come_back(as_curator, party):
    address = reverse("record-withdraw", args=["party", party.pk])
    as_curator.post(address, {"reason": "entered twice"})
    assert Party.objects.kept().count() == 0

    as_curator.post(reverse("record-bring-back", args=["party", party.pk]))
    assert Party.objects.kept().count() == 1


def test_volunteer_may_not_withdraw(client, member, party):
    client.force_login(member)

    answer = client.post(reverse("record-withdraw", args=["party", party.pk]), {"reason": "no"})

    assert answer.status_code == 403


def test_putting_a_part_back_leaves_its_place_and_says_so(as_curator, curator):
    part, shelf = PartFactory(description="hinge"), LocationFactory()
    first = latest_version(part)
    move_part(part, location=shelf, by=curator)
    change(part, {"description": "strap"}, by=curator)

    answer = as_curator.post(reverse("record-restore", args=["part", part.pk, first]), follow=True)

    part.refresh_from_db()
    assert (part.description, part.location) == ("hinge", shelf)
    assert [str(message) for message in answer.context["messages"]] == [
        "Put back. Left as it is now: component, vehicle class, identification status, location, "
        "inside another part, quantity, hazards. The way here stays in the history."
    ]
