"""Accessions on the screen, and their papers."""

import datetime as dt
from io import BytesIO

import pytest
from django.urls import reverse
from pypdf import PdfReader

from catalog.models import Accession
from tests.factories import (
    AccessionFactory,
    CitationFactory,
    ComponentFactory,
    LocationFactory,
    PartFactory,
    PartyFactory,
    StatedLineFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def accession():
    party = PartyFactory(name="Ada Skarn", address="2 Mill Lane")
    return AccessionFactory(
        year=2026,
        serial=4,
        party=party,
        terms="Not to be sold.",
        title_status=Accession.Title.UNSIGNED,
    )


def filled(accession):
    component = ComponentFactory()
    StatedLineFactory(accession=accession, component=component)
    PartFactory(
        accession=accession,
        component=component,
        identification_status="proposed",
        location=LocationFactory(),
    )
    PartFactory(accession=accession)
    CitationFactory(accession=accession, event=None)


def paper(client, name, accession):
    answer = client.get(reverse(name, args=[accession.pk]))
    pages = PdfReader(BytesIO(answer.content)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_accession_is_added_with_nothing_but_a_new_name(signed_in):
    typed = {"party": "Ada Skarn", "method": "gift", "title_status": "unknown"}

    answer = signed_in.post(reverse("accession-add"), {**typed, "date_text": "abt May 2026"})

    accession = Accession.objects.get()
    assert answer.headers["Location"] == accession.get_absolute_url()
    assert accession.party.name == "Ada Skarn"
    assert accession.date_edtf == "2026-05~"
    assert accession.serial == 1


def test_used_number_is_refused_and_what_was_typed_kept(signed_in, accession):
    typed = {"party": "Walt Fell", "method": "gift", "title_status": "unknown", "number": "2026.4"}

    page = signed_in.post(reverse("accession-add"), typed).content.decode()

    assert "2026.4 is already used, for what came from Ada Skarn." in page
    assert 'value="Walt Fell"' in page


@pytest.mark.parametrize(
    ("number", "words"),
    [
        ("2026.4.17", "2026.4.17 is the number of a part"),
        ("14", "An accession number is the year and a number, such as 2026.4."),
    ],
)
def test_number_that_is_none_is_refused_in_words(signed_in, number, words):
    typed = {"method": "gift", "title_status": "unknown", "number": number}

    page = signed_in.post(reverse("accession-add"), typed).content.decode()

    assert words in page
    assert not Accession.objects.exists()


def test_number_field_leaves_once_parts_carry_it(signed_in, accession):
    address = reverse("accession-change", args=[accession.pk])
    assert 'name="number"' in signed_in.get(address).content.decode()

    PartFactory(accession=accession)

    assert 'name="number"' not in signed_in.get(address).content.decode()


def test_detail_shows_what_differs_and_flags_the_deed(signed_in, accession):
    hinge = ComponentFactory(name="strap hinge")
    StatedLineFactory(accession=accession, text="10 hinges", quantity=10, component=hinge)
    PartFactory(accession=accession, component=hinge, quantity=9, identification_status="proposed")

    page = signed_in.get(accession.get_absolute_url()).content.decode()

    assert "10 hinges stated, 9 cataloged" in page
    assert "Deed not signed yet." in page


def test_list_is_filtered_by_title(signed_in, accession):
    AccessionFactory(year=2026, serial=5, title_status=Accession.Title.SIGNED)

    page = signed_in.get(reverse("accession-list"), {"title_status": "unsigned"})

    assert [row.number for row in page.context["page"]] == ["2026.4"]


def test_list_is_filtered_by_words_and_state(signed_in, accession):
    AccessionFactory(year=2026, serial=5, is_open=False)
    StatedLineFactory(accession=accession, text="volute springs")

    page = signed_in.get(reverse("accession-list"), {"words": "volute", "is_open": "true"})

    assert [row.number for row in page.context["page"]] == ["2026.4"]


def test_curator_finishes_taking_in_and_volunteer_does_not(client, member, curator, accession):
    address = reverse("accession-close", args=[accession.pk])
    client.force_login(member)
    assert client.post(address).status_code == 403

    client.force_login(curator)
    client.post(address)

    accession.refresh_from_db()
    assert accession.is_open is False


@pytest.mark.parametrize("name", ["accession-receipt", "accession-deed"])
def test_paper_tells_giver_and_terms_and_is_no_legal_advice(signed_in, accession, name):
    StatedLineFactory(accession=accession, text="seven journal boxes")

    words = paper(signed_in, name, accession)

    for told in ("2026.4", "Ada Skarn", "2 Mill Lane", "Not to be sold.", "seven journal boxes"):
        assert told in words
    assert "not legal advice" in words


def test_deed_of_gift_is_for_gifts_only(signed_in):
    bought = AccessionFactory(method=Accession.Method.PURCHASE)

    assert signed_in.get(reverse("accession-deed", args=[bought.pk])).status_code == 404


@pytest.mark.parametrize("name", ["accession-receipt", "accession-deed", "accession-change"])
def test_visitor_sees_neither_donor_nor_terms(as_visitor, accession, name):
    for address in (accession.get_absolute_url(), reverse(name, args=[accession.pk])):
        answer = as_visitor.get(address)
        assert answer.status_code == 403
        assert b"Ada Skarn" not in answer.content


def test_list_takes_the_same_queries_for_one_and_three(signed_in, accession, count_queries):
    filled(accession)
    one = count_queries(signed_in, reverse("accession-list"))
    for _ in range(2):
        filled(AccessionFactory(party=PartyFactory()))

    assert count_queries(signed_in, reverse("accession-list")) == one


def test_detail_takes_the_same_queries_for_one_and_three(as_curator, accession, count_queries):
    filled(accession)
    one = count_queries(as_curator, accession.get_absolute_url())
    filled(accession)
    filled(accession)

    assert count_queries(as_curator, accession.get_absolute_url()) == one


def test_received_date_is_shown_in_words(signed_in):
    accession = AccessionFactory(
        date_text="May 1956",
        date_edtf="1956-05",
        date_earliest=dt.date(1956, 5, 1),
        date_latest=dt.date(1956, 5, 31),
    )

    assert "May 1956" in signed_in.get(accession.get_absolute_url()).content.decode()
