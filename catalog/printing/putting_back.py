"""The sheet beside the vehicle while it goes together again: last off, first on."""

import datetime as dt

from catalog.models import Vehicle
from catalog.printing.papers import Paper
from catalog.printing.sheets import print_sheet
from catalog.queries.dismantling import Dismantling


def putting_back_sheet(
    vehicle: Vehicle,
    dismantling: Dismantling,
    *,
    address: str,
    paper: Paper = Paper.A4,
    at: dt.datetime | None = None,
) -> bytes:
    """Return the sheet as PDF; its QR code opens the page on which each piece is noted as back."""
    off, back = len(dismantling.to_put_back), len(dismantling.put_back)
    context = {
        "kind": "Putting back",
        "number": vehicle.running_number or vehicle.label,
        "name": vehicle.label,
        "cells": [("Pieces off", str(off)), ("Back on again", str(back)), ("By", ""), ("Date", "")],
        "dismantling": dismantling,
        "vehicle": vehicle,
        "paper": paper,
    }
    return print_sheet(
        "print/vehicles/putting_back.html",
        context,
        address=address,
        stylesheet="css/paper/lists.css",
        at=at,
    )
