"""Paper: tagged PDF with a title block, pages counted, and a QR code back to the record."""

import datetime as dt
from io import BytesIO
from urllib.parse import unquote
from xml.etree import ElementTree as ET

import pytest
import segno
from pypdf import PdfReader

from catalog.printing.accessions import receipt
from catalog.printing.sheets import qr_picture
from tests.factories import AccessionFactory, PartFactory, PartyFactory, StatedLineFactory

ADDRESS = "https://shed.example/accessions/2026.4/"
MAY = dt.datetime(2026, 5, 5, 12, tzinfo=dt.UTC)


def sheet(accession):
    return PdfReader(BytesIO(receipt(accession, address=ADDRESS, at=MAY)))


@pytest.fixture
def accession(db):
    accession = AccessionFactory(year=2026, serial=4, party=PartyFactory())
    StatedLineFactory.create_batch(3, accession=accession)
    return accession


def test_sheet_declares_pdf_ua_and_its_language(accession):
    root = sheet(accession).trailer["/Root"]

    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert b'pdfuaid:part="1"' in root["/Metadata"].get_data()


def test_every_page_carries_number_and_count(accession):
    PartFactory.create_batch(40, accession=accession)

    pages = [page.extract_text() for page in sheet(accession).pages]

    assert len(pages) > 1
    for number, text in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in text
        assert "2026.4" in text


def test_sheet_says_when_it_was_printed(accession):
    assert "5 May 2026" in sheet(accession).pages[0].extract_text()


def test_qr_code_mends_a_quarter_of_damage_and_keeps_its_quiet_zone():
    picture = ET.fromstring(unquote(qr_picture(ADDRESS).partition(",")[2]))  # noqa: S314

    code = segno.make(ADDRESS, error="q", micro=False)
    modules = code.symbol_size(border=4)[0]
    assert code.error == "Q"
    assert picture.get("width") == str(modules * 4)
