"""Read a plain spreadsheet of parts as a group has it: CSV or XLSX, whatever its layout."""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from catalog.exchange.column_guesses import guess_columns, is_heading
from catalog.exchange.csv_files import read_csv, write_csv
from catalog.exchange.sheets import (
    HOW_TO_SAVE,
    HOW_TO_SPLIT,
    MOST_ROWS,
    TOO_LONG,
    Line,
    Sheet,
    TableError,
)
from catalog.exchange.xlsx_files import read_xlsx

__all__ = [
    "ProblemRow",
    "Row",
    "Table",
    "TableError",
    "guess_columns",
    "read_table",
    "write_csv",
    "write_problems",
]

_MOST_BYTES = 25_000_000
_LINES_BEFORE_HEADER = 20
_NUMBER = re.compile(r"[\d.,/%½¼¾ -]*\d[\d.,/%½¼¾ -]*")
_NO_SPREADSHEET = {
    b"%PDF": "a PDF document",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"GIF8": "a picture",
    b"{\\rtf": "a text document",
}


@dataclass(frozen=True, slots=True)
class Row:
    """One row below the header, as wide as the header; ``notes`` are harmless oddities."""

    line_number: int
    cells: tuple[str, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ProblemRow:
    """A row that cannot be used as it is: what it says, and why not."""

    line_number: int
    cells: tuple[str, ...]
    problem: str


@dataclass(frozen=True, slots=True)
class Table:
    """What a spreadsheet says; every row below the header is in ``rows`` or ``problems``.

    ``notes`` tell what was left out above the header or on other sheets.
    """

    header: tuple[str, ...]
    rows: tuple[Row, ...]
    problems: tuple[ProblemRow, ...]
    notes: tuple[str, ...] = ()


def read_table(name: str, data: bytes) -> Table:
    """Read the spreadsheet ``data``, whose content decides how it is read.

    ``name`` is for the sentences only, but for text named like a workbook, which is
    refused rather than shown as a table of nonsense. Raises ``TableError`` with a plain
    sentence when there is no table to be read.
    """
    sheet = _read_sheet(name, data)
    if not sheet.lines:
        raise TableError(f"“{name}” is empty.")
    at = _header_at(sheet.lines)
    header, body = _header_and_body(sheet.lines, at)
    if not body:
        raise TableError(f"“{name}” has a header but no rows below it.")
    if len(body) > MOST_ROWS:
        raise TableError(TOO_LONG)
    if not sheet.has_exact_widths:
        # In a workbook a column without a heading may be filled further down.
        header = _padded(header, max(len(line.cells) for line in body))
    rows, problems = _sorted_out(sheet, header, body)
    width = _used_width(header, rows)
    return Table(
        header=_named(header[:width]),
        rows=tuple(Row(row.line_number, row.cells[:width], row.notes) for row in rows),
        problems=problems,
        notes=(*sheet.notes, *_header_notes(sheet.lines, at)),
    )


def write_problems(header: Sequence[str], problems: Sequence[ProblemRow]) -> bytes:
    """Write problem rows as CSV with their reasons, to be mended and imported again.

    The reason stands in the first column, where a row that is too wide cannot push it
    aside; it is ignored when the file comes back.
    """
    rows = ((problem.problem, *problem.cells) for problem in problems)
    return write_csv(("Problem", *header), rows)


def _read_sheet(name: str, data: bytes) -> Sheet:
    if not data.strip():
        raise TableError(f"“{name}” is empty.")
    if len(data) > _MOST_BYTES:
        raise TableError(f"“{name}” is larger than {_MOST_BYTES // 1_000_000} MB. {HOW_TO_SPLIT}")
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise TableError(
            f"“{name}” is an old workbook (.xls) or one locked with a password. {HOW_TO_SAVE}"
        )
    for signature, kind in _NO_SPREADSHEET.items():
        if data.startswith(signature):
            raise TableError(f"“{name}” is {kind}, not a spreadsheet.")
    if data.startswith(b"PK"):
        return read_xlsx(data)
    if name.casefold().endswith((".xlsx", ".xlsm")):
        raise TableError(f"“{name}” is named like a workbook but is none. {HOW_TO_SAVE}")
    return read_csv(data)


def _header_at(lines: tuple[Line, ...]) -> int | None:
    """Find the header, which may stand below a title, or None where there is none."""
    candidates = lines[:_LINES_BEFORE_HEADER]
    known = [sum(map(is_heading, line.cells)) for line in candidates]
    if max(known) >= 2:
        return known.index(max(known))
    filled = [sum(map(bool, line.cells)) for line in candidates]
    usual = Counter(filled).most_common(1)[0][0]
    at = next(index for index, count in enumerate(filled) if count >= usual)
    has_numbers = any(_NUMBER.fullmatch(cell) for cell in lines[at].cells)
    return None if has_numbers and not known[at] else at


def _header_and_body(
    lines: tuple[Line, ...], at: int | None
) -> tuple[tuple[str, ...], tuple[Line, ...]]:
    if at is not None:
        return lines[at].cells, lines[at + 1 :]
    widths = Counter(len(line.cells) for line in lines)
    return ("",) * widths.most_common(1)[0][0], lines


def _sorted_out(
    sheet: Sheet, header: tuple[str, ...], body: tuple[Line, ...]
) -> tuple[list[Row], tuple[ProblemRow, ...]]:
    rows, problems = [], []
    width = len(header)
    for line in body:
        cells = _padded(line.cells, width if not sheet.has_exact_widths else 0)
        cells = cells if any(cells[width:]) else cells[:width]
        problem = line.problem or _width_problem(len(cells), width)
        if problem:
            problems.append(ProblemRow(line.line_number, line.cells, problem))
        else:
            rows.append(Row(line.line_number, cells, _formula_notes(cells)))
    return rows, tuple(problems)


def _padded(cells: tuple[str, ...], width: int) -> tuple[str, ...]:
    return cells + ("",) * (width - len(cells))


def _width_problem(count: int, width: int) -> str:
    if count == width:
        return ""
    few = (
        "A cell is missing" if count < width else "A cell may hold a comma without quotation marks"
    )
    return f"This row has {_cells(count)} where the header has {width}. {few}."


def _cells(count: int) -> str:
    return "1 cell" if count == 1 else f"{count} cells"


def _formula_notes(cells: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(
        f"“{cell}” begins like a formula; it is kept as words and never computed."
        for cell in cells
        if cell.startswith("=")
    )


def _used_width(header: tuple[str, ...], rows: list[Row]) -> int:
    """Return the width without the empty columns at the right that programs like to add."""
    used = [index for index, heading in enumerate(header, 1) if heading]
    filled = (index for row in rows for index, cell in enumerate(row.cells, 1) if cell)
    return max(used[-1] if used else 0, max(filled, default=0))


def _named(header: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(heading or f"Column {index}" for index, heading in enumerate(header, 1))


def _header_notes(lines: tuple[Line, ...], at: int | None) -> tuple[str, ...]:
    if at is None:
        return ("There is no header, so the columns are only numbered.",)
    return tuple(
        f"Line {line.line_number} stands above the header and was left out: "
        f"“{' '.join(filter(None, line.cells))}”."
        for line in lines[:at]
    )
