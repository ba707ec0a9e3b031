"""Citing sources on the screen, and statements that lack one."""

import pytest
from django.urls import reverse

from catalog.models import Citation, Source
from catalog.queries.citations import address_of
from tests.factories import (
    AccessionFactory,
    CitationFactory,
    IdentificationFactory,
    LocationFactory,
    ProvenanceEventFactory,
    SourceFactory,
    SpecificationFactory,
)

pytestmark = pytest.mark.django_db


def test_recorded_source_is_cited_behind_an_event(signed_in):
    event = ProvenanceEventFactory()
    typed = {"source": SourceFactory().pk, "kind": "other", "locator": "sheet 2"}

    answer = signed_in.post(reverse("citation-add", args=["event", event.pk]), typed)

    assert answer.headers["Location"] == address_of(event)
    assert [citation.locator for citation in event.citations.all()] == ["sheet 2"]


def test_new_source_is_cited_by_title(signed_in):
    accession = AccessionFactory()
    typed = {"title": "Letter with the pallet", "kind": "letter"}

    signed_in.post(reverse("citation-add", args=["accession", accession.pk]), typed)

    assert accession.citations.get().source == Source.objects.get(kind="letter")


@pytest.mark.parametrize("both", [True, False])
def test_one_of_source_and_title_is_asked_for(signed_in, both):
    typed = {"source": SourceFactory().pk, "title": "Another"} if both else {}
    address = reverse("citation-add", args=["accession", AccessionFactory().pk])

    page = signed_in.post(address, {**typed, "kind": "other", "says": "seen there"})

    assert "one of the two." in page.content.decode()
    assert "seen there" in page.content.decode()
    assert not Citation.objects.exists()


def test_location_cites_nothing(signed_in):
    address = reverse("citation-add", args=["location", LocationFactory().pk])

    assert signed_in.get(address).status_code == 404


def test_visitor_does_not_cite(as_visitor):
    address = reverse("citation-add", args=["accession", AccessionFactory().pk])

    assert as_visitor.get(address).status_code == 403


def test_only_a_curator_takes_a_citation_off(client, member, curator):
    citation = CitationFactory()
    address = reverse("citation-remove", args=[citation.pk])
    client.force_login(member)
    assert client.post(address).status_code == 403

    client.force_login(curator)
    answer = client.post(address)

    assert answer.headers["Location"] == address_of(citation.event)
    assert not Citation.objects.exists()


@pytest.mark.parametrize(
    ("kind", "factory"),
    [
        ("event", ProvenanceEventFactory),
        ("identification", IdentificationFactory),
        ("specification", SpecificationFactory),
    ],
)
def test_unsourced_statements_take_the_same_queries_for_one_and_three(
    signed_in, count_queries, kind, factory
):
    address = f"{reverse('unsourced-list')}?kind={kind}"
    made = [factory()]
    one = count_queries(signed_in, address)
    made += [factory(), factory()]

    page = signed_in.get(address).content.decode()
    assert all(reverse("citation-add", args=[kind, row.pk]) in page for row in made)
    assert count_queries(signed_in, address) == one


def test_unsourced_list_knows_three_kinds_only(signed_in):
    assert signed_in.get(reverse("unsourced-list"), {"kind": "party"}).status_code == 404
