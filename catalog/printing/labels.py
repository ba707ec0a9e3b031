"""Labels, millimeter-exact: tags, labels of locations, and a proof to hold behind a sheet."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import Any

import segno
from django.conf import settings
from django.core.exceptions import ValidationError
from django.template.loader import render_to_string
from weasyprint import CSS

from catalog.printing.sheets import pdf_of, qr_picture
from catalog.reckoning.label_sheets import (
    QUIET_ZONE,
    LabelStock,
    Line,
    cut_marks,
    label_places,
    module_size,
    proof_ruler,
    ruled,
    ruler,
    size_problem,
)

# DejaVu Sans Mono is 0.602 em wide; a code has eight characters with its hyphen.
CODE_EMS = 0.602 * 8
LARGEST_CODE_MM = 8.0
# What the style sheet gives to the hole of a tag, and to the white around the code.
HOLE_MM = 9.0
PADDING_MM = 6.0


@dataclass(frozen=True, slots=True)
class Label:
    """What stands on one label; without a heading there is a line to write on."""

    code: str
    address: str
    heading: str = ""
    detail: str = ""

    @property
    def qr(self) -> str:
        return qr_picture(self.address)


@dataclass(frozen=True, slots=True)
class Printer:
    """How a sheet goes through a printer: the first free label, and how far it prints askew."""

    start: int = 1
    right_mm: float = 0.0
    down_mm: float = 0.0


def label_sheet(
    labels: Sequence[Label], stock: LabelStock, printer: Printer, *, note: str = ""
) -> bytes:
    """Return the labels as PDF; refuse a label on which no phone could read the code."""
    modules = modules_of(max((label.address for label in labels), key=len))
    if problem := size_problem(stock, modules):
        raise ValidationError({"stock": problem})
    places = label_places(stock, len(labels), start=printer.start)
    pages = [
        list(page)
        for _, page in groupby(zip(places, labels, strict=True), key=lambda pair: pair[0].page)
    ]
    line = ruler(stock)
    lines = [*(cut_marks(stock) if stock.is_cut else ()), *(ruled(line) if line else ())]
    context = {
        "site_name": settings.SITE_NAME,
        "pages": pages,
        "stock": stock,
        "note": note,
        "lines": lines,
        "ruler_words": line and _said_of(line),
    }
    return _pdf("print/labels/sheet.html", context, _styles(stock, printer, lines, modules))


def proof_sheet(stock: LabelStock, printer: Printer) -> bytes:
    """Return one page with the outlines of all labels, for plain paper held behind a sheet."""
    line = proof_ruler(stock)
    lines = ruled(line)
    context = {
        "places": list(label_places(stock, stock.per_page)),
        "lines": lines,
        "ruler_words": _said_of(line),
    }
    return _pdf("print/labels/proof.html", context, _styles(stock, printer, lines, 25))


def modules_of(address: str) -> int:
    """Return of how many squares the side of the QR code of ``address`` is, without its border."""
    return int(segno.make(address, error="q", micro=False).symbol_size(border=0)[0])


def _pdf(template: str, context: dict[str, Any], styles: dict[str, Any]) -> bytes:
    placing = CSS(string=render_to_string("print/labels/places.css", styles))
    return pdf_of(render_to_string(template, context), "css/paper/labels.css", placing)


def _styles(
    stock: LabelStock, printer: Printer, lines: Sequence[Line], modules: int
) -> dict[str, Any]:
    """Return every length that depends on the stock, as the style sheet writes it."""
    side = float(module_size(stock, modules) * (modules + 2 * QUIET_ZONE))
    hole = HOLE_MM if stock.is_cut else 0.0
    beside = float(stock.label[0]) - side - hole - PADDING_MM
    return {
        "page": _mm(*stock.page),
        "label": _mm(*stock.label),
        "nudge": _mm(printer.right_mm, printer.down_mm),
        "places": [(one.slot, *_mm(one.x, one.y)) for one in label_places(stock, stock.per_page)],
        "lines": [_mm(line.x, line.y, *_extent(line)) for line in lines],
        "side": f"{side:.4f}mm",
        "code": f"{min(LARGEST_CODE_MM, beside / CODE_EMS):.3f}mm",
    }


def _extent(line: Line) -> tuple[float, float]:
    length = float(line.length)
    return (0.0, length) if line.is_upright else (length, 0.0)


def _said_of(line: Line) -> str:
    """Return the words beside the line; along the edge of a label there is no room for any."""
    if line.is_upright:
        return ""
    return f"This line is {float(line.length):g} mm long when nothing was shrunk or stretched."


def _mm(*lengths: Fraction | float) -> tuple[str, ...]:
    return tuple(f"{float(length):.4f}mm" for length in lengths)
