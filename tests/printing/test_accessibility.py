"""What PDF/UA-1 (ISO 14289-1) asks of a file, as far as a reader can see it in the structure.

No checker of the whole standard has been run on the files: whether the tags follow the sense of
the page, contrast, and artifacts are not tested here.
"""

import itertools
from xml.etree import ElementTree as ET

import pytest
from weasyprint.document import Document

from catalog.operations.photos import add_photo
from catalog.operations.provenance import record_event
from catalog.printing.editions import Edition
from catalog.printing.needs_sheets import needs_pages
from catalog.printing.records import record_sheet
from catalog.queries.needs_papers import needs_papers
from tests.factories import (
    MeasurementFactory,
    PartFactory,
    PatentFactory,
    PositionFactory,
    VehicleClassFactory,
    VehicleFactory,
)
from tests.printing.reading import elements_of, figures_of, fonts_of, read
from tests.samples import picture
from tests.tramway import lay_out_class, lay_out_shop

pytestmark = pytest.mark.django_db
UA_PART = "{http://www.aiim.org/pdfua/ns/id/}part"
PRINTED = {}
TITLE = "{http://purl.org/dc/elements/1.1/}title"


def recorded(record) -> Document:
    return record_sheet(record, Edition("https://shed.example/record/"))


def a_vehicle(curator) -> Document:
    vehicle = VehicleFactory(label="Kestrel")
    for kind, when in (("built", "about 1899"), ("sold", "1931")):
        values = {"kind": kind, "date_text": when, "to_party": f"Owner of {when}"}
        record_event(vehicle=vehicle, values=values, by=curator)
    add_photo(picture(), by=curator, vehicle=vehicle)
    add_photo(picture("brown"), by=curator, vehicle=vehicle)
    return recorded(vehicle)


def a_part(curator) -> Document:
    part = PartFactory(number="2026.4.1")
    MeasurementFactory(part=part)
    return recorded(part)


def a_patent(curator) -> Document:
    return recorded(PatentFactory())


def a_class(curator) -> Document:
    return recorded(VehicleClassFactory())


def what_is_needed(curator) -> Document:
    (sheet,) = needs_papers([lay_out_shop().vehicles["Wagon 31"]])
    return needs_pages(sheet, address="https://shed.example{}".format)


def what_is_needed_of_much(curator) -> Document:
    shop = lay_out_class()
    for number in range(40):
        PositionFactory(vehicle_class=shop.vehicle_class, assembly=f"assembly {number}")
    (sheet,) = needs_papers([shop.vehicle("Wagon 31")])
    return needs_pages(sheet, address="https://shed.example{}".format)


@pytest.fixture(
    params=[a_vehicle, a_part, a_patent, a_class, what_is_needed, what_is_needed_of_much]
)
def paper(request, curator):
    """Print one sheet of each kind, once, and read it by a reader that had no part in making it."""
    if request.param not in PRINTED:
        PRINTED[request.param] = read(request.param(curator))
    return PRINTED[request.param]


def test_file_names_its_standard_language_and_title(paper):
    root = paper.trailer["/Root"]
    told = ET.fromstring(root["/Metadata"].get_data())  # noqa: S314 - of our own making

    parts = [value for one in told.iter() for key, value in one.attrib.items() if key == UA_PART]
    assert parts + [one.text for one in told.iter(UA_PART)] == ["1"]
    assert "".join(next(told.iter(TITLE)).itertext()).strip() == paper.metadata.title
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert root["/MarkInfo"]["/Marked"]


def test_every_page_belongs_to_the_structure_and_is_walked_in_its_order(paper):
    pages = [(page["/Tabs"], "/StructParents" in page) for page in paper.pages]

    assert pages == [("/S", True)] * len(paper.pages)
    assert [one["/S"] for one in elements_of(paper, "/Document")] == ["/Document"]


def test_headings_begin_with_one_of_the_first_rank_and_leave_none_out(paper):
    ranks = [int(one["/S"][2:]) for one in elements_of(paper, "/H1", "/H2", "/H3")]

    assert ranks[0] == 1
    assert ranks.count(1) == 1
    assert all(after - before <= 1 for before, after in itertools.pairwise(ranks))


def test_every_picture_has_words(paper):
    words = figures_of(paper)

    assert words
    assert "" not in words


def test_every_cell_of_a_table_names_its_headers(paper):
    headers = {str(one["/ID"]) for one in elements_of(paper, "/TH")}
    cells = [one["/A"].get("/Headers", []) for one in elements_of(paper, "/TD")]

    assert all(cells)
    assert {str(name) for cell in cells for name in cell} <= headers


def test_all_fonts_are_in_the_file(paper):
    assert set(fonts_of(paper).values()) == {True}
