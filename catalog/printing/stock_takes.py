"""The sheet that is carried along a rack: every part with its photo and a box to tick."""

import datetime as dt
import io
from base64 import b64encode

from django.core.files.storage import default_storage
from PIL import Image

from catalog.models import Location
from catalog.models.photos import derived_name
from catalog.printing.papers import Paper
from catalog.printing.sheets import print_sheet
from catalog.queries.stock_takes import MOST_PRINTED, sheet_rows

THUMBNAIL = 320


def stock_take_sheet(
    location: Location, *, address: str, paper: Paper = Paper.A4, at: dt.datetime | None = None
) -> bytes:
    """Return the sheet as PDF; its QR code opens the page on which the stock is taken."""
    rows = sheet_rows(location)
    context = {
        "kind": location.get_kind_display(),
        "number": location.name,
        "name": "Stock-take",
        "cells": [("Where", location.path), ("Parts recorded", _counted(len(rows)))],
        "paper": paper,
        "location": location,
        "rows": [(part, _thumbnail(sha256)) for part, sha256 in rows[:MOST_PRINTED]],
        "is_cut_short": len(rows) > MOST_PRINTED,
        "most": MOST_PRINTED,
    }
    return print_sheet("print/places/stock_take.html", context, address=address, at=at)


def _counted(count: int) -> str:
    return f"more than {MOST_PRINTED}" if count > MOST_PRINTED else str(count)


def _thumbnail(sha256: str) -> str:
    """Return the smallest copy of a photo as JPEG, which paper takes as it is."""
    place = derived_name(sha256, THUMBNAIL, "webp") if sha256 else ""
    if not place or not default_storage.exists(place):
        return ""
    made = io.BytesIO()
    with default_storage.open(place) as file, Image.open(file) as picture:
        picture.convert("RGB").save(made, "JPEG", quality=80)
    return f"data:image/jpeg;base64,{b64encode(made.getvalue()).decode()}"
