"""Papers of an accession: the receipt for whoever brought it, and the deed of gift to sign."""

import datetime as dt
from typing import Any

from catalog.models import Accession
from catalog.printing.editions import Edition
from catalog.printing.papers import Paper
from catalog.printing.sheets import print_sheet


def receipt(
    accession: Accession, *, address: str, paper: Paper = Paper.A4, at: dt.datetime | None = None
) -> bytes:
    """Return the receipt as PDF: what was stated, what has been cataloged, and the terms."""
    return _paper("receipt", "Receipt", accession, Edition(address, paper, at=at))


def deed_of_gift(
    accession: Accession, *, address: str, paper: Paper = Paper.A4, at: dt.datetime | None = None
) -> bytes:
    """Return the deed of gift as PDF, for both sides to sign."""
    return _paper("deed", "Deed of gift", accession, Edition(address, paper, at=at))


def _paper(template: str, name: str, accession: Accession, edition: Edition) -> bytes:
    context: dict[str, Any] = {
        "kind": "Accession",
        "number": accession.number,
        "name": name,
        "cells": [
            ("Received", accession.date_text or "date not recorded"),
            ("How it came", accession.get_method_display()),
        ],
        "accession": accession,
        "lines": accession.stated_lines.all(),
        "parts": accession.parts.for_list().in_numerical_order(),
        "paper": edition.paper,
    }
    return print_sheet(
        f"print/accessions/{template}.html", context, address=edition.address, at=edition.at
    )
