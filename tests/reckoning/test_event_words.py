"""What happened and between whom, in one phrase for every kind of event."""

import pytest

from catalog.models import ProvenanceEvent
from catalog.reckoning.event_words import event_phrase

PHRASES = {
    "built": "built by A for B",
    "sold": "sold by A to B",
    "transferred": "transferred from A to B",
    "given": "given by A to B",
    "lent": "lent by A to B",
    "moved": "moved from A to B",
    "listed": "listed or seen with A and B",
    "rebuilt": "rebuilt by A for B",
    "renumbered": "renumbered or renamed by A for B",
    "laid_up": "laid up with A and B",
    "returned": "returned to service with A and B",
    "scrapped": "scrapped for A by B",
    "acquired": "acquired by B from A",
}


def test_every_kind_of_event_has_a_phrase_that_names_both():
    told = {kind: event_phrase(kind, giver="A", taker="B") for kind in ProvenanceEvent.Kind.values}

    assert told == PHRASES


@pytest.mark.parametrize("kind", ProvenanceEvent.Kind.values)
def test_phrase_without_names_is_how_the_form_calls_the_event(kind):
    assert event_phrase(kind) == ProvenanceEvent.Kind(kind).label


def test_keeper_stands_apart_from_the_owner():
    assert event_phrase("listed", taker="the mill", keeper="A. Gill") == (
        "listed or seen with the mill, kept by A. Gill"
    )
