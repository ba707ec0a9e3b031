"""The needs sheet: one vehicle on one page of paper, a box to tick for each position."""

import datetime as dt
from collections.abc import Callable, Iterable
from functools import partial

from weasyprint.document import Document

from catalog.printing.papers import Paper
from catalog.printing.sheets import bound, lay_out
from catalog.queries.needs import needs_address
from catalog.queries.needs_papers import NeedsPaper

TEMPLATE = "print/needs/vehicle.html"
# The usual one, and one that sets half a point smaller and closer.
STYLES = ("css/paper/needs.css", "css/paper/needs-close.css")


def needs_sheets(
    sheets: Iterable[NeedsPaper],
    *,
    address: Callable[[str], str],
    paper: Paper = Paper.A4,
    at: dt.datetime | None = None,
) -> bytes:
    """Return the needs of each vehicle as one PDF, each beginning on a page of its own.

    ``address`` makes of a path the whole address that a QR code leads to.
    """
    return bound([needs_pages(one, address=address, paper=paper, at=at) for one in sheets])


def needs_pages(
    sheet: NeedsPaper,
    *,
    address: Callable[[str], str],
    paper: Paper = Paper.A4,
    at: dt.datetime | None = None,
) -> Document:
    """Return the pages of one vehicle: one, unless it lacks more than such a page holds.

    What runs over a little is set closer; what runs over all the same keeps its usual size.
    """
    context = {**_told(sheet), "paper": paper}
    leads_to = address(needs_address(sheet.vehicle.slug))
    usual, close = (
        partial(lay_out, TEMPLATE, context, address=leads_to, stylesheet=style, at=at)
        for style in STYLES
    )
    pages = usual()
    if len(pages.pages) == 1:
        return pages
    closer = close()
    return closer if len(closer.pages) == 1 else pages


def _told(sheet: NeedsPaper) -> dict[str, object]:
    vehicle, needs = sheet.vehicle, sheet.needs
    return {
        "kind": "What is needed",
        "number": vehicle.running_number or vehicle.label,
        "name": vehicle.label,
        "cells": [
            ("Class", vehicle.vehicle_class.designation),
            ("Essential positions filled", f"{needs.filled} of {needs.essential}"),
        ],
        "sheet": sheet,
        "needs": needs,
    }
