"""What to measure when you go: the open questions of a class, to be filled in by hand."""

import datetime as dt
from collections.abc import Sequence

from catalog.printing.papers import Paper
from catalog.printing.sheets import print_sheet
from catalog.queries.survivors import Survivor, ToMeasure


def measuring_list(
    survivor: Survivor,
    lists: Sequence[ToMeasure],
    *,
    address: str,
    paper: Paper = Paper.A4,
    at: dt.datetime | None = None,
) -> bytes:
    """Return the list as PDF; the holder's contact is not on it, as sheets get left lying."""
    source = survivor.source
    context = {
        "kind": "What to measure when you go",
        "number": ", ".join(one.designation for one in survivor.classes) or "Survivor",
        "name": source.title,
        "cells": [("Where it is", source.original_place), ("Measured on", ""), ("By", "")],
        "lists": lists,
        "paper": paper,
    }
    return print_sheet(
        "print/survivors/measure.html",
        context,
        address=address,
        stylesheet="css/paper/lists.css",
        at=at,
    )
