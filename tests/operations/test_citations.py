"""Citing sources behind statements."""

import pytest
from django.core.exceptions import ValidationError
from django.utils import timezone

from catalog.models import Citation, Source
from catalog.operations.citations import add_citation, cite, remove_citation
from tests.factories import (
    CitationFactory,
    IdentificationFactory,
    PartFactory,
    ProvenanceEventFactory,
    SourceFactory,
)

pytestmark = pytest.mark.django_db


def test_citation_stands_behind_one_statement(member):
    event = ProvenanceEventFactory()

    citation = add_citation(
        SourceFactory(title="Inventory"),
        locator=" p. 4 ",
        says="one engine",
        by=member,
        event=event,
    )

    assert str(citation) == "Inventory, p. 4"
    assert list(event.citations.all()) == [citation]
    assert citation.history.get().history_user == member


def test_two_statements_in_one_citation_are_refused(member):
    with pytest.raises(ValidationError, match="exactly one statement"):
        add_citation(SourceFactory(), by=member, event=ProvenanceEventFactory(), part=PartFactory())


def test_same_place_twice_is_refused(member):
    event = ProvenanceEventFactory()
    source = SourceFactory(title="Inventory")
    add_citation(source, locator="p. 4", by=member, event=event)

    with pytest.raises(ValidationError, match=r"“Inventory, p\. 4” stands behind this already"):
        add_citation(source, locator="p. 4", by=member, event=event)
    assert add_citation(source, locator="p. 5", by=member, event=event).locator == "p. 5"


def test_withdrawn_source_is_refused(member):
    source = SourceFactory(title="Forgery", withdrawn_at=timezone.now())

    with pytest.raises(ValidationError, match="“Forgery” is withdrawn"):
        add_citation(source, by=member, part=PartFactory())


def test_new_source_is_cited_by_its_title(member):
    identification = IdentificationFactory()

    citation = cite(
        None, title="Sale letter", kind="letter", by=member, identification=identification
    )

    assert citation.source == Source.objects.get(title="Sale letter", kind="letter")


def test_refused_citation_leaves_no_new_source(member):
    with pytest.raises(ValidationError):
        cite(None, title="Sale letter", by=member)

    assert not Source.objects.exists()


def test_removed_citation_stays_in_its_history(curator):
    citation = CitationFactory()
    key = citation.pk

    remove_citation(citation, by=curator)

    assert Citation.history.filter(id=key).latest().history_change_reason == "no longer cited"
