"""The class sheet: the drawings of a class, its positions, and their limits."""

from weasyprint.document import Document

from catalog.models import VehicleClass
from catalog.printing.editions import Edition
from catalog.printing.plates import drawing_plate
from catalog.printing.sheets import lay_out
from catalog.queries.noted_stories import cited
from catalog.queries.party_names import builder_named
from catalog.queries.vehicle_classes import class_sheet
from catalog.reckoning.length_texts import format_gauge


def design_sheet(kind: VehicleClass, edition: Edition) -> Document:
    """Return the pages of the sheet; a visitor's copy has published drawings only."""
    design = class_sheet(kind)
    plates = [
        drawing_plate(plate.drawing.title, plate.drawing.picture, plate.spots)
        for plate in design.plates
        if plate.drawing.picture.is_published or not edition.for_visitor
    ]
    context = {
        "kind": "Vehicle class",
        "number": kind.designation,
        "name": kind.name or kind.designation,
        "cells": _cells(kind, for_visitor=edition.for_visitor),
        "class": kind,
        "design": design,
        "plates": plates,
        "sources": cited(kind.citations.all(), for_visitor=edition.for_visitor),
        **edition.named,
    }
    return lay_out(
        "print/vehicle_classes/sheet.html",
        context,
        address=edition.address,
        stylesheet="css/paper/records.css",
        at=edition.at,
    )


def _cells(kind: VehicleClass, *, for_visitor: bool) -> list[tuple[str, str]]:
    gauge = format_gauge(kind.gauge_mm) if kind.gauge_mm else kind.gauge_text
    return [
        ("Gauge", gauge),
        ("Wheels", kind.wheel_arrangement),
        ("Builder", builder_named(kind, for_visitor=for_visitor)),
        ("Built", kind.date_text),
    ]
