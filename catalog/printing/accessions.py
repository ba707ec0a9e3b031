"""Papers of an accession: the receipt for whoever brought it, and the deed of gift to sign."""

import datetime as dt
from typing import Any

from catalog.models import Accession
from catalog.printing.sheets import print_sheet


def receipt(accession: Accession, *, address: str, at: dt.datetime | None = None) -> bytes:
    """Return the receipt as PDF: what was stated, what has been cataloged, and the terms."""
    return _paper("receipt", "Receipt", accession, address=address, at=at)


def deed_of_gift(accession: Accession, *, address: str, at: dt.datetime | None = None) -> bytes:
    """Return the deed of gift as PDF, for both sides to sign."""
    return _paper("deed", "Deed of gift", accession, address=address, at=at)


def _paper(
    template: str, name: str, accession: Accession, *, address: str, at: dt.datetime | None
) -> bytes:
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
    }
    return print_sheet(f"print/accessions/{template}.html", context, address=address, at=at)
