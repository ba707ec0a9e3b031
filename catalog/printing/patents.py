"""The patent sheet: what a patent says, its figures, and which pieces resemble them."""

from weasyprint.document import Document

from catalog.models import Patent
from catalog.printing.editions import Edition
from catalog.printing.plates import figure_plate
from catalog.printing.sheets import lay_out
from catalog.queries.noted_stories import cited
from catalog.queries.patents import figure_sheets, patent_facts


def patent_sheet(patent: Patent, edition: Edition) -> Document:
    """Return the pages of the sheet; a visitor's copy shows published figures and pieces only."""
    sheets = figure_sheets(patent, published_only=edition.for_visitor)
    inventors = patent.inventors.kept()
    facts = patent_facts(patent)
    context = {
        "kind": "Patent",
        "number": str(patent),
        "name": patent.title,
        "cells": [
            ("Filed", patent.filed_on and f"{patent.filed_on:%-d %B %Y}"),
            ("Issued", patent.issued_on and f"{patent.issued_on:%-d %B %Y}"),
            ("Figures", str(len(sheets))),
        ],
        "patent": patent,
        "facts": facts,
        "inventors": [
            party.name for party in inventors if party.is_name_public or not edition.for_visitor
        ],
        "figures": [(figure_plate(sheet), sheet) for sheet in sheets],
        "sources": cited(patent.citations.all(), for_visitor=edition.for_visitor),
        **edition.named,
    }
    return lay_out(
        "print/patents/sheet.html",
        context,
        address=edition.address,
        stylesheet="css/paper/records.css",
        at=edition.at,
    )
