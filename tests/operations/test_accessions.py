"""Recording accessions and giving them their numbers."""

import datetime as dt

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Party, SearchEntry
from catalog.operations.accessions import (
    change_accession,
    close_accession,
    record_accession,
    reopen_accession,
)
from catalog.operations.record import withdraw
from tests.factories import AccessionFactory, PartFactory, PartyFactory

pytestmark = pytest.mark.django_db

IN_2026 = dt.datetime(2026, 5, 5, 12, tzinfo=dt.UTC)


def test_accession_takes_the_next_number_of_the_year(member):
    AccessionFactory(year=2026, serial=7)
    AccessionFactory(year=2025, serial=90)

    accession = record_accession({}, by=member, at=IN_2026)

    assert accession.number == "2026.8"


def test_number_of_a_withdrawn_accession_is_not_given_again(member, curator):
    first = record_accession({}, by=member, at=IN_2026)
    withdraw(first, by=curator, reason="entered twice")

    assert record_accession({}, by=member, at=IN_2026).number == "2026.2"


def test_used_number_is_refused_with_whose_it_is_and_the_next_free(member):
    AccessionFactory(year=2026, serial=4, party=PartyFactory(name="Ada Skarn"))

    with pytest.raises(ValidationError) as refusal:
        record_accession({"year": 2026, "serial": 4}, by=member)

    assert refusal.value.message_dict == {
        "number": [
            "2026.4 is already used, for what came from Ada Skarn. The next free number is 2026.5."
        ]
    }


def test_party_may_be_a_new_name(member):
    accession = record_accession({"party": "Brannock Vale Transport Collection"}, by=member)

    party = Party.objects.get()
    assert accession.party == party
    assert party.kind == Party.Kind.ORGANIZATION


def test_party_may_be_a_known_name_in_other_capitals(member):
    ada = PartyFactory(name="Ada Skarn")

    assert record_accession({"party": " ada  skarn"}, by=member).party == ada


def test_party_of_two_is_asked_for(member):
    PartyFactory(name="Ada Skarn", place="Tolvane")
    PartyFactory(name="Ada Skarn", place="Marrow")

    with pytest.raises(ValidationError) as refusal:
        record_accession({"party": "Ada Skarn"}, by=member)

    assert refusal.value.message_dict == {
        "party": [
            "2 parties are called Ada Skarn: write “Ada Skarn, Tolvane” or “Ada Skarn, Marrow”."
        ]
    }


def test_party_of_two_is_found_with_its_place(member):
    PartyFactory(name="Ada Skarn", place="Tolvane")
    other = PartyFactory(name="Ada Skarn", place="Marrow")

    assert record_accession({"party": "Ada Skarn, Marrow"}, by=member).party == other


def test_received_date_is_read_from_words(member):
    accession = record_accession({"date_text": "spring 2011"}, by=member)

    assert (accession.date_edtf, accession.date_earliest) == ("2011-21", dt.date(2011, 3, 1))


def test_number_may_change_before_parts_carry_it(member):
    accession = AccessionFactory(year=2026, serial=3)

    change_accession(accession, {"year": 2025}, by=member)

    assert accession.number == "2025.1"


def test_number_stays_once_parts_carry_it(member):
    accession = AccessionFactory(year=2026, serial=3)
    PartFactory(accession=accession)

    with pytest.raises(ValidationError) as refusal:
        change_accession(accession, {"year": 2026, "serial": 9}, by=member)

    assert refusal.value.message_dict == {
        "number": ["Parts are numbered under 2026.3 already; it stays."]
    }


def test_taking_in_is_finished_and_resumed(curator):
    accession = AccessionFactory()

    assert close_accession(accession, by=curator).is_open is False
    assert reopen_accession(accession, by=curator).is_open is True
    assert [entry.history_change_reason for entry in accession.history.all()] == [
        "taking in resumed",
        "taking in finished",
        None,
    ]


def test_accession_with_parts_is_not_withdrawn(curator):
    accession = AccessionFactory()
    PartFactory(accession=accession)

    with pytest.raises(ValidationError, match="Parts are cataloged under this number"):
        withdraw(accession, by=curator, reason="entered twice")


def test_accession_is_found_by_its_donor(member):
    record_accession({"party": "Ada Skarn", "summary": "one pallet"}, by=member)

    assert "Ada Skarn" in SearchEntry.objects.get(kind="accession").words
