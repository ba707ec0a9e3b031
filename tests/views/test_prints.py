"""Printing on the screen: looking first, issues by their number, many sheets in one file."""

from io import BytesIO

import pytest
from django.urls import reverse
from pypdf import PdfReader

from catalog.models import PrintedSheet
from tests.factories import (
    AccessionFactory,
    LocationFactory,
    PartFactory,
    PatentFactory,
    VehicleClassFactory,
    VehicleFactory,
)
from tests.printing.reading import figures_of

pytestmark = pytest.mark.django_db
MEMBERS = {"paper": "A4"}
VISITORS = {"paper": "letter", "public": "on"}


def pages_of(answer):
    data = b"".join(answer.streaming_content) if answer.streaming else answer.content
    return [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(data)).pages]


@pytest.fixture
def vehicle():
    return VehicleFactory(label="Kestrel", running_number="3", is_published=True)


def test_issue_is_printed_numbered_and_found_again(signed_in, member, vehicle):
    printed = signed_in.post(reverse("print-record", args=["vehicle", vehicle.pk]), MEMBERS)

    issue = PrintedSheet.objects.get()
    assert printed.headers["Location"] == reverse("printed-sheet", args=[1])
    assert (issue.number, issue.title, issue.printed_by) == (1, "Kestrel", member)
    found = signed_in.get(reverse("printed-sheet-list"), {"number": 1}, follow=True)
    assert "issue 1" in pages_of(found)[0]


def test_former_issue_stays_as_it_was_printed(signed_in, vehicle):
    signed_in.post(reverse("print-record", args=["vehicle", vehicle.pk]), MEMBERS)
    type(vehicle).objects.update(story="Another story by now.")

    signed_in.post(reverse("print-record", args=["vehicle", vehicle.pk]), VISITORS)

    first, second = (pages_of(signed_in.get(reverse("printed-sheet", args=[n]))) for n in (1, 2))
    assert ["Another story" in " ".join(pages) for pages in (first, second)] == [False, True]


def test_number_of_no_issue_is_told(signed_in):
    page = signed_in.get(reverse("printed-sheet-list"), {"number": 9})

    assert "No sheet was printed here as issue 9." in page.content.decode()


@pytest.mark.parametrize("made", [PartFactory, PatentFactory, VehicleClassFactory])
def test_every_kind_of_sheet_can_be_looked_at(signed_in, made):
    record = made()
    kind = {"Part": "part", "Patent": "patent"}.get(type(record).__name__, "vehicle-class")

    answer = signed_in.get(reverse("print-sheet", args=[kind, record.pk]), {"paper": "letter"})

    box = PdfReader(BytesIO(answer.content)).pages[0].mediabox
    assert (answer.headers["Content-Type"], box.width, box.height) == ("application/pdf", 612, 792)


def test_visitor_gets_the_public_sheet_of_what_is_published_only(client, vehicle):
    hidden = VehicleFactory(label="Dunlin")

    shown = client.get(reverse("print-sheet", args=["vehicle", vehicle.pk]))

    assert "Nothing private stands on it" in " ".join(pages_of(shown))
    assert client.get(reverse("print-sheet", args=["vehicle", hidden.pk])).status_code == 404


def test_visitor_finds_no_issue(as_visitor, client):
    assert as_visitor.get(reverse("printed-sheet-list")).status_code == 403
    assert as_visitor.get(reverse("printed-sheet", args=[1])).status_code == 403


def test_code_on_the_sheet_leads_to_the_set_address_of_the_group(signed_in, settings, vehicle):
    settings.SITE_ADDRESS = "https://shed.example/"

    signed_in.post(reverse("print-record", args=["vehicle", vehicle.pk]), MEMBERS)

    sheet = signed_in.get(reverse("printed-sheet", args=[1])).content
    address = f"https://shed.example{vehicle.get_absolute_url()}"
    assert f"QR code leading to {address}" in figures_of(PdfReader(BytesIO(sheet)))


def test_all_vehicles_are_printed_as_one_file_with_progress(signed_in, vehicle):
    VehicleFactory(label="Dunlin")

    answer = signed_in.post(reverse("print-several", args=["vehicles"]), MEMBERS)

    told = b"".join(answer.streaming_content).decode()
    assert ["1 of 2: Dunlin" in told, "2 of 2: Kestrel" in told] == [True, True]
    pages = pages_of(signed_in.get(reverse("printed-sheet", args=[1])))
    assert [text.count("Provenance of a vehicle") for text in pages] == [1] * len(pages)
    assert PrintedSheet.objects.get().get_kind_display() == "several sheets"


@pytest.mark.parametrize("of", ["location", "accession"])
def test_parts_of_one_place_or_donation_are_printed_together(signed_in, of):
    shelf, accession = LocationFactory(), AccessionFactory()
    PartFactory(location=shelf, accession=accession, number="2026.1.1")
    PartFactory(number="2026.1.2")
    which = {"location": shelf.pk, "accession": accession.pk}[of]

    answer = signed_in.post(reverse("print-several-of", args=[of, which]), VISITORS)

    told = b"".join(answer.streaming_content).decode()
    assert "1 of 1: 2026.1.1, 1 page" in told


def test_long_run_is_offered_in_several_files(signed_in):
    accession = AccessionFactory()
    PartFactory.create_batch(41, accession=accession)

    page = signed_in.get(reverse("print-several-of", args=["accession", accession.pk]))

    assert [
        "Print 1 to 40" in page.content.decode(),
        "Print 41 to 41" in page.content.decode(),
    ] == [
        True,
        True,
    ]


def test_page_of_issues_takes_as_many_queries_for_three_as_for_one(
    signed_in, vehicle, count_queries
):
    address = reverse("print-record", args=["vehicle", vehicle.pk])
    signed_in.post(address, MEMBERS)
    one = count_queries(signed_in, address)
    for _ in range(2):
        signed_in.post(address, MEMBERS)

    assert count_queries(signed_in, address) == one
