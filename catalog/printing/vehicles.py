"""The provenance sheet: one vehicle on paper, to hang beside it."""

from weasyprint.document import Document

from catalog.models import Vehicle
from catalog.printing.editions import Edition
from catalog.printing.sheets import lay_out
from catalog.queries.vehicle_papers import vehicle_paper
from catalog.reckoning.length_texts import format_gauge

STYLES = "css/paper/records.css"


def provenance_sheet(vehicle: Vehicle, edition: Edition) -> Document:
    """Return the pages of the sheet; the first photo opens it, the others follow."""
    told = vehicle_paper(vehicle, for_visitor=edition.for_visitor)
    context = {
        "kind": "Provenance of a vehicle",
        "number": vehicle.running_number or vehicle.works_number or vehicle.label,
        "name": vehicle.label,
        "cells": _cells(vehicle, told.built),
        "told": told,
        "main": told.photos[0] if told.photos else None,
        "photos": told.photos[1:],
        **edition.named,
    }
    return lay_out(
        "print/vehicles/sheet.html",
        context,
        address=edition.address,
        stylesheet=STYLES,
        at=edition.at,
    )


def _cells(vehicle: Vehicle, built: str) -> list[tuple[str, str]]:
    built_to = vehicle.vehicle_class
    gauge = format_gauge(built_to.gauge_mm) if built_to.gauge_mm else built_to.gauge_text
    return [
        ("Class", built_to.designation),
        ("Gauge", gauge),
        ("Works number", vehicle.works_number),
        ("Built", built),
    ]
