"""The sheet of any record that has one."""

from collections.abc import Callable
from typing import Any

from django.db import models
from weasyprint.document import Document

from catalog.models import Part, Patent, PrintedSheet, Vehicle, VehicleClass
from catalog.printing.editions import Edition
from catalog.printing.parts import part_sheet
from catalog.printing.patents import patent_sheet
from catalog.printing.vehicle_classes import design_sheet
from catalog.printing.vehicles import provenance_sheet

Kind = PrintedSheet.Kind
# Whatever a sheet asks of its record first, fetched with it.
ROWS: dict[str, models.QuerySet[Any]] = {
    Kind.VEHICLE: Vehicle.objects.select_related("vehicle_class__builder"),
    Kind.PART: Part.objects.for_detail().select_related("vehicle_class__builder"),
    Kind.PATENT: Patent.objects.select_related("assignee"),
    Kind.VEHICLE_CLASS: VehicleClass.objects.select_related("builder"),
}
MAKERS: dict[type[models.Model], Callable[[Any, Edition], Document]] = {
    Vehicle: provenance_sheet,
    Part: part_sheet,
    Patent: patent_sheet,
    VehicleClass: design_sheet,
}


def record_sheet(record: models.Model, edition: Edition) -> Document:
    """Return the pages of the sheet of a vehicle, part, patent or class."""
    return MAKERS[type(record)](record, edition)
