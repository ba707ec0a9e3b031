"""The text of one workbook cell as its sheet shows it, or why it cannot be used."""

import re
from datetime import date, datetime, time
from typing import Any

from openpyxl.cell.cell import Cell
from openpyxl.cell.read_only import EmptyCell, ReadOnlyCell
from openpyxl.utils import get_column_letter

AnyCell = ReadOnlyCell | EmptyCell | Cell

_PADDED = re.compile(r"(0+)(?:\.(0+))?")


def cell_text(cell: AnyCell) -> str:
    """Write the value of ``cell`` as people would type it.

    Numbers keep the zeros that the format of the cell adds in front and behind, since
    inventory numbers are often kept so; days lose the midnight that workbooks add.
    """
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return _number_text(value, str(cell.number_format))
    if isinstance(value, datetime | date | time):
        return _moment_text(value)
    return str(value).strip()


def formula_problem(row: int, column: int, result: AnyCell, formula: Any) -> str:
    """Say in words why a cell cannot be used: a formula without result, or an error."""
    place = f"Cell {get_column_letter(column)}{row}"
    if result.data_type == "e":
        return f"{place} shows the error {result.value}. Mend it or leave it empty."
    if result.value is None and formula is not None:
        return (
            f"{place} holds the formula {formula} without a result. Open the file in the "
            "spreadsheet program, save it there, and import it again."
        )
    return ""


def formula_in(cell: AnyCell) -> str | None:
    """Return the formula in a cell that was read without its result."""
    if cell.data_type != "f" or cell.value is None:
        return None
    # Formulas that fill a range are objects with the formula in ``text``.
    return str(getattr(cell.value, "text", cell.value))


def _number_text(value: float, number_format: str) -> str:
    if padded := _PADDED.fullmatch(number_format):
        decimals = len(padded[2] or "")
        width = len(padded[1]) + (decimals + 1 if decimals else 0)
        return f"{value:0{width}.{decimals}f}"
    # Fifteen digits are what a workbook keeps; more would show binary rounding.
    return str(value) if isinstance(value, int) else f"{value:.15g}"


def _moment_text(value: datetime | date | time) -> str:
    if isinstance(value, datetime):
        is_day = value.time() == time()
        return value.date().isoformat() if is_day else value.isoformat(" ", "minutes")
    return value.isoformat()
