"""Events are recorded with parties by name and dates in words, or refused in words."""

import datetime as dt

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Party, ProvenanceEvent
from catalog.operations.provenance import change_event, prefer_event, record_event
from tests.factories import PartFactory, PartyFactory, SourceFactory, VehicleFactory

pytestmark = pytest.mark.django_db


def test_event_finds_the_party_that_is_there_and_records_the_other(curator):
    known = PartyFactory(name="Orrin Contractors")
    told = {"kind": "sold", "date_text": "spring 1929", "from_party": "Tramway"}

    event = record_event(
        vehicle=VehicleFactory(), values=told | {"to_party": "orrin  contractors"}, by=curator
    )

    assert (event.to_party, event.from_party.name) == (known, "Tramway")
    assert event.date_earliest == dt.date(1929, 3, 1)
    assert Party.objects.count() == 2


def test_event_stands_on_its_source(curator):
    source = SourceFactory()
    told = {"kind": "moved", "place": "Tolvane"}

    event = record_event(
        part=PartFactory(), values=told, cited={"source": source, "locator": "p. 4"}, by=curator
    )

    assert [str(one) for one in event.citations.all()] == [f"{source}, p. 4"]


@pytest.mark.parametrize(
    ("told", "field"),
    [
        ({"kind": "sold"}, "from_party"),
        ({"kind": "sold", "from_party": "Mill", "to_party": "Mill"}, "to_party"),
        ({"kind": "built", "date_text": "31 February 1899"}, "date_text"),
        ({"kind": "built", "date_text": "1956/1950"}, "date_text"),
        ({"kind": "built", "is_preferred": True}, "__all__"),
    ],
)
def test_event_that_cannot_be_is_refused_and_nothing_kept(curator, told, field):
    vehicle = VehicleFactory()

    with pytest.raises(ValidationError) as refusal:
        record_event(vehicle=vehicle, values=told, by=curator)

    assert list(refusal.value.message_dict) == [field]
    assert not ProvenanceEvent.objects.exists()
    assert not Party.objects.exists()


def test_event_of_two_records_is_refused(curator):
    with pytest.raises(ValidationError, match="a vehicle or of a part"):
        record_event(
            vehicle=VehicleFactory(), part=PartFactory(), values={"kind": "built"}, by=curator
        )


def test_change_empties_a_party_that_was_taken_out(curator):
    told = {"kind": "sold", "from_party": "Tramway", "to_party": "Mill"}
    event = record_event(vehicle=VehicleFactory(), values=told, by=curator)

    change_event(event, {"kind": "sold", "from_party": "Tramway", "to_party": ""}, by=curator)

    event.refresh_from_db()
    assert (event.from_party.name, event.to_party) == ("Tramway", None)


def test_preference_needs_a_reason_and_keeps_it(curator):
    event = record_event(vehicle=VehicleFactory(), values={"kind": "built"}, by=curator)

    with pytest.raises(ValidationError):
        prefer_event(event, " ", by=curator)
    prefer_event(event, "the plate says so", by=curator)

    event.refresh_from_db()
    assert (event.is_preferred, event.preference_reason) == (True, "the plate says so")
