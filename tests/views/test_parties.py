"""Parties on the screen."""

import pytest
from django.urls import reverse

from catalog.models import Party
from tests.factories import PartyFactory, SourceFactory

pytestmark = pytest.mark.django_db


def test_party_add_records_a_person_by_name_alone(signed_in):
    answer = signed_in.post(reverse("party-add"), {"name": "Ada Skarn", "kind": "person"})

    party = Party.objects.get()
    assert answer.headers["Location"] == party.get_absolute_url()
    assert party.sort_name == "Skarn, Ada"
    assert party.history.get().history_user.username == "walt"


def test_party_add_without_name_keeps_what_was_typed(signed_in):
    answer = signed_in.post(
        reverse("party-add"), {"name": "", "kind": "person", "place": "Tolvane"}
    )

    assert not Party.objects.exists()
    assert 'value="Tolvane"' in answer.content.decode()


def test_party_change_is_refused_when_somebody_else_changed_it_first(signed_in):
    signed_in.post(reverse("party-add"), {"name": "Ada Skarn", "kind": "person"})
    party = Party.objects.get()
    seen = party.history.get().pk
    address = reverse("party-change", args=[party.pk])

    typed = {"name": "Ada Skarn", "kind": "person", "seen": seen}
    signed_in.post(address, {**typed, "place": "Tolvane"})
    answer = signed_in.post(address, {**typed, "place": "Skarn"})

    party.refresh_from_db()
    assert party.place == "Tolvane"
    assert "walt changed this while you were typing" in answer.content.decode()


def test_party_detail_shows_sources_held_and_accounts_given(signed_in):
    party = PartyFactory()
    SourceFactory(title="Sale letter", holder=party)
    SourceFactory(title="What they told", speaker=party)

    page = signed_in.get(party.get_absolute_url())

    assert [source.title for source in page.context["held"]] == ["Sale letter"]
    assert [source.title for source in page.context["accounts"]] == ["What they told"]
    assert "Sources they hold" in page.content.decode()
    assert "Accounts they gave" in page.content.decode()


def test_visitor_never_sees_contact_data(as_visitor):
    party = PartyFactory(email="ada@example.org")

    answer = as_visitor.get(party.get_absolute_url())

    assert answer.status_code == 403
    assert "ada@example.org" not in answer.content.decode()


def test_party_list_takes_the_same_queries_for_one_and_three(signed_in, count_queries):
    PartyFactory()
    one = count_queries(signed_in, reverse("party-list"))
    PartyFactory.create_batch(2)

    assert count_queries(signed_in, reverse("party-list")) == one
