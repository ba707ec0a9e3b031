"""The provenance sheet, read back: order of the text, tags, fonts, notes, and what is private."""

import datetime as dt
from typing import Any

import pytest

from catalog.models import Source, Vehicle
from catalog.operations.photos import add_photo
from catalog.operations.provenance import record_event
from catalog.printing.editions import Edition
from catalog.printing.papers import Paper
from catalog.printing.vehicles import provenance_sheet
from catalog.queries.identities import CATEGORIES
from tests.factories import PartFactory, PartyFactory, SourceFactory, VehicleFactory
from tests.printing.reading import figures_of, fonts_of, in_order, read, tags_of, text_of
from tests.samples import picture

pytestmark = pytest.mark.django_db
MAY = dt.datetime(2026, 5, 5, 12, tzinfo=dt.UTC)


def edition(**chosen):
    return Edition("https://shed.example/vehicles/kestrel/", at=MAY, **chosen)


@pytest.fixture
def kestrel(curator):
    engine = VehicleFactory(label="Kestrel", running_number="3", story="Built for the tramway.")
    tramway = PartyFactory(name="Marrow Fell Tramway", is_name_public=True)
    giver = PartyFactory(name="Rowan Ashdown")
    letter, roll = SourceFactory(title="Letter"), SourceFactory(title="Roll", is_published=True)
    tell: list[tuple[str, str, dict[str, Any], Source]] = [
        ("built", "1899", {"to_party": tramway}, roll),
        ("listed", "March 1930", {"to_party": tramway, "words": "in the yard"}, roll),
        ("sold", "spring 1929", {"from_party": tramway, "to_party": "Pellow"}, letter),
        ("acquired", "9 April 2011", {"from_party": giver, "place": "Tolvane"}, letter),
    ]
    for kind, when, parties, source in tell:
        values = {"kind": kind, "date_text": when, **parties}
        record_event(vehicle=engine, values=values, by=curator, cited={"source": source})
    add_photo(picture(), by=curator, vehicle=engine, is_published=True)
    add_photo(picture("brown"), by=curator, vehicle=engine, caption="the left side")
    PartFactory(number="2026.4.1", keep_with=engine, description="lamp bracket")
    return Vehicle.objects.get(pk=engine.pk)


def test_sheet_tells_the_story_in_the_order_of_reading(kestrel):
    text = text_of(read(provenance_sheet(kestrel, edition(issue=42))))

    parts = (
        *("Provenance of a vehicle", "Built for the tramway.", "Where it came from"),
        *("Owners and keepers", "Statement by statement", "Gaps and doubts"),
        *("By what it is known", "Photographs", "Parts in hand", "Sources", "Issue 42 is kept"),
    )
    assert in_order(text, *reversed(parts)) == list(parts)


def test_sheet_has_the_nine_categories_of_object_id(kestrel):
    text = text_of(read(provenance_sheet(kestrel, edition())))

    assert in_order(text[text.index("By what it is known") :], *CATEGORIES) == list(CATEGORIES)


def test_contradiction_stands_with_the_numbers_of_both_sources(kestrel):
    text = text_of(read(provenance_sheet(kestrel, edition())))

    clash = text[text.index("These cannot all be true") : text.index("By what it is known")]
    assert "not before 1 March 1930 1" in clash
    assert "not after 31 May 1929 2" in clash
    sources = text[text.rindex("Sources") :]
    assert in_order(sources, "1. Roll", "2. Letter") == ["1. Roll", "2. Letter"]


def test_sheet_is_tagged_titled_in_english_and_carries_its_fonts(kestrel):
    reader = read(provenance_sheet(kestrel, edition()))

    root = reader.trailer["/Root"]
    assert (root["/Lang"], bool(root["/MarkInfo"]["/Marked"])) == ("en", True)
    assert reader.metadata.title.startswith("Provenance of Kestrel")
    assert {"/H1", "/H2", "/P", "/Table", "/TH", "/TD", "/Figure"} <= tags_of(reader)
    assert all(fonts_of(reader).values())
    assert "" not in figures_of(reader)


def test_pages_are_counted_and_name_the_issue(kestrel):
    pages = [
        page.extract_text() for page in read(provenance_sheet(kestrel, edition(issue=7))).pages
    ]

    assert [f"page {n} of {len(pages)}" in text for n, text in enumerate(pages, 1)] == [
        True for _ in pages
    ]
    assert ["issue 7" in text for text in pages] == [True for _ in pages]


@pytest.mark.parametrize(("paper", "size"), [(Paper.A4, (595, 842)), (Paper.LETTER, (612, 792))])
def test_sheet_fits_the_paper_that_is_asked_for(kestrel, paper, size):
    reader = read(provenance_sheet(kestrel, edition(paper=paper)))

    boxes = {(round(page.mediabox.width), round(page.mediabox.height)) for page in reader.pages}
    assert boxes == {size}


def test_public_sheet_names_no_donor_private_source_or_unpublished_part(kestrel):
    text = text_of(read(provenance_sheet(kestrel, edition(for_visitor=True))))

    private = ("Rowan Ashdown", "Letter", "in the yard", "Tolvane", "2026.4.1", "the left side")
    assert [word for word in private if word in text] == []
    assert "A source that is not published" in text


def test_vehicle_of_which_nothing_is_known_still_has_a_sheet(db):
    text = text_of(read(provenance_sheet(VehicleFactory(label="Frame"), edition())))

    assert "Nothing is recorded of its owners yet." in text


def test_photos_are_printed_from_their_jpeg_copies(kestrel):
    reader = read(provenance_sheet(kestrel, edition()))

    images = {image.name: image.image.format for page in reader.pages for image in page.images}
    assert list(images.values()) == ["JPEG", "JPEG"]
