"""The needs sheet: one vehicle on paper, a box to tick for each position."""

import datetime as dt

from catalog.printing.papers import Paper
from catalog.printing.sheets import print_sheet
from catalog.queries.needs import VehicleNeeds


def needs_sheet(
    needs: VehicleNeeds, *, address: str, paper: Paper = Paper.A4, at: dt.datetime | None = None
) -> bytes:
    """Return the needs of one vehicle as PDF; ``address`` is where its QR code leads."""
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
    return print_sheet(
        "print/needs/vehicle.html",
        context,
        address=address,
        stylesheet="css/paper/lists.css",
        at=at,
    )
