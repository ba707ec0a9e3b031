"""The wanted sheet: one want on paper, to pin up or to take along; nothing private is on it."""

import datetime as dt

from catalog.printing.papers import Paper
from catalog.printing.sheets import print_sheet
from catalog.queries.wants import WantSheet


def wanted_sheet(
    sheet: WantSheet, *, address: str, paper: Paper = Paper.A4, at: dt.datetime | None = None
) -> bytes:
    """Return the want as PDF; ``address`` is the public page to which its QR code leads.

    ``sheet`` is to be one made for visitors, as the paper goes to everybody.
    """
    want = sheet.want
    context = {
        "kind": "Wanted",
        "number": want.title,
        "name": want.title,
        "cells": [("How many", want.quantity), ("Marks to look for", want.marks)],
        "want": want,
        "sheet": sheet,
        "paper": paper,
    }
    return print_sheet(
        "print/wants/wanted.html",
        context,
        address=address,
        stylesheet="css/paper/lists.css",
        at=at,
    )
