"""Saying on the screen what a part is, and what others think of it."""

import pytest
from django.urls import reverse

from catalog.models import Identification
from catalog.operations.identifications import propose_identification
from tests.factories import ComponentFactory, MemberFactory, PartFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def said(db):
    return propose_identification(
        PartFactory(), component=ComponentFactory(name="journal box"), by=MemberFactory()
    )


def test_volunteer_says_what_it_is(signed_in):
    part, box = PartFactory(), ComponentFactory()
    typed = {"component": box.pk, "confidence": "guess", "basis": "mark", "reasons": "T.I. 207"}

    answer = signed_in.post(
        reverse("part-identify", args=[part.pk]),
        {f"identify-{name}": value for name, value in typed.items()},
    )

    part.refresh_from_db()
    assert answer.headers["Location"] == part.get_absolute_url()
    assert (part.component, part.identification_status) == (box, "proposed")


def test_curator_agrees_with_one_tap(as_curator, said):
    as_curator.post(reverse("identification-opinion", args=[said.pk]), {"agrees": "yes"})

    said.part.refresh_from_db()
    assert said.part.identification_status == "agreed"


def test_dispute_without_reasons_stays_on_the_page(as_curator, said):
    address = reverse("identification-opinion", args=[said.pk])

    answer = as_curator.post(address, {"agrees": "no", "reasons": ""})

    assert "Say why you think otherwise." in answer.content.decode()
    assert not said.opinions.exists()


def test_volunteer_may_not_agree(signed_in, said):
    answer = signed_in.post(reverse("identification-opinion", args=[said.pk]), {"agrees": "yes"})

    assert answer.status_code == 403


def test_record_offers_opinions_to_others_and_taking_back_to_oneself(client, curator, said):
    opinion = reverse("identification-opinion", args=[said.pk])
    client.force_login(curator)
    assert opinion in client.get(said.part.get_absolute_url()).content.decode()

    client.force_login(said.made_by)
    own = client.get(said.part.get_absolute_url()).content.decode()
    assert opinion not in own
    assert reverse("identification-take-back", args=[said.pk]) in own


def test_take_back_is_for_who_said_it(client, curator, said):
    address = reverse("identification-take-back", args=[said.pk])
    client.force_login(curator)
    assert "Only who said it" in client.post(address, follow=True).content.decode()

    client.force_login(said.made_by)
    client.post(address)
    assert not Identification.objects.standing().exists()


def test_opinion_says_what_it_changed_and_reasons_can_be_changed(as_curator, said):
    address = reverse("identification-opinion", args=[said.pk])

    page = as_curator.post(address, {"agrees": "no", "reasons": "no bore"}, follow=True)
    again = as_curator.get(address, {"agrees": "no"}).content.decode()

    told = f"You doubt that {said.part} is: {said}. It is now disputed."
    assert told in page.content.decode()
    assert "Change my reasons" in page.content.decode()
    assert "no bore</textarea>" in again
