"""Papers of an accession on either size of paper."""

from io import BytesIO

import pytest
from pypdf import PdfReader

from catalog.printing.accessions import deed_of_gift, receipt
from catalog.printing.papers import Paper
from tests.factories import AccessionFactory, PartyFactory

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("paper_of", [receipt, deed_of_gift])
@pytest.mark.parametrize(("paper", "height"), [(Paper.A4, 842), (Paper.LETTER, 792)])
def test_papers_fit_the_paper_in_the_printer(paper_of, paper, height):
    accession = AccessionFactory(party=PartyFactory())

    data = paper_of(accession, address="https://shed.example/", paper=paper)

    assert round(PdfReader(BytesIO(data)).pages[0].mediabox.height) == height
