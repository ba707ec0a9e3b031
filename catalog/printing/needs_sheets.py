"""The needs sheet: one vehicle on paper, a box to tick for each position."""

import datetime as dt
from collections.abc import Mapping

from weasyprint.document import Document

from catalog.printing.papers import Paper
from catalog.printing.sheets import bound, lay_out
from catalog.queries.needs import VehicleNeeds


def needs_sheet(
    needs: VehicleNeeds, *, address: str, paper: Paper = Paper.A4, at: dt.datetime | None = None
) -> bytes:
    """Return the needs of one vehicle as PDF; ``address`` is where its QR code leads."""
    return needs_sheets({address: needs}, paper=paper, at=at)


def needs_sheets(
    by_address: Mapping[str, VehicleNeeds],
    *,
    paper: Paper = Paper.A4,
    at: dt.datetime | None = None,
) -> bytes:
    """Return the needs of several vehicles as one PDF, each beginning on a page of its own."""
    return bound([_laid_out(needs, address, paper, at) for address, needs in by_address.items()])


def _laid_out(needs: VehicleNeeds, address: str, paper: Paper, at: dt.datetime | None) -> Document:
    vehicle = needs.vehicle
    context = {
        "kind": "What is needed",
        "number": vehicle.running_number or vehicle.label,
        "name": vehicle.label,
        "cells": [
            ("Class", vehicle.vehicle_class.designation),
            ("Essential positions filled", f"{needs.filled} of {needs.essential}"),
        ],
        "needs": needs,
        "paper": paper,
    }
    return lay_out(
        "print/needs/vehicle.html",
        context,
        address=address,
        stylesheet="css/paper/lists.css",
        at=at,
    )
