"""The part sheet: one piece on paper, for its crate or for a reader."""

from django.utils.text import capfirst
from weasyprint.document import Document

from catalog.models import Part
from catalog.printing.editions import Edition
from catalog.printing.sheets import lay_out
from catalog.queries.part_papers import part_paper
from catalog.queries.public_parts import public_cells


def part_sheet(part: Part, edition: Edition) -> Document:
    """Return the pages of the sheet; a visitor's copy names no donor, place or member."""
    told = part_paper(part, for_visitor=edition.for_visitor)
    context = {
        "kind": "Part",
        "number": part.label,
        "name": _name(part, for_visitor=edition.for_visitor),
        "cells": _cells(part, for_visitor=edition.for_visitor),
        "told": told,
        "main": told.photos[0] if told.photos else None,
        "photos": told.photos[1:],
        **edition.named,
    }
    return lay_out(
        "print/parts/sheet.html",
        context,
        address=edition.address,
        stylesheet="css/paper/records.css",
        at=edition.at,
    )


def _name(part: Part, *, for_visitor: bool) -> str:
    words = "" if for_visitor else part.description
    return capfirst(str(part.component or words or "not identified yet"))


def _cells(part: Part, *, for_visitor: bool) -> list[tuple[str, str]]:
    cells = list(public_cells(part))
    if for_visitor:
        return cells
    where = str(part.location or (f"inside {part.inside}" if part.inside else ""))
    return [*cells, ("Where", where), ("Came with", str(part.accession or ""))]
