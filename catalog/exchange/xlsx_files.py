"""Read the first filled sheet of an XLSX workbook as text, without running anything."""

import io
import re
import struct
import warnings
import zipfile
import zlib
from collections.abc import Iterator
from itertools import repeat
from typing import Any
from xml.etree.ElementTree import ParseError

from openpyxl import load_workbook
from openpyxl.cell.read_only import EMPTY_CELL
from openpyxl.workbook import Workbook

from catalog.exchange.csv_files import unguarded
from catalog.exchange.sheets import (
    HOW_TO_SAVE,
    HOW_TO_SPLIT,
    MOST_COLUMNS,
    Line,
    Sheet,
    TableError,
    filled,
)
from catalog.exchange.xlsx_cells import AnyCell, cell_text, formula_in, formula_problem

# 20,000 rows of 15 cells unpack to some 15 MB; more takes too long and may be a trap.
_MOST_SHEET_BYTES = 40_000_000
_MOST_OTHER_BYTES = 8_000_000
# A sheet formatted to its very last row has a million empty rows below the table.
_MOST_EMPTY_ROWS = 10_000
_DAMAGE = (
    zipfile.BadZipFile,
    zlib.error,
    struct.error,
    ParseError,
    KeyError,
    IndexError,
    ValueError,
    TypeError,
    AttributeError,
    OSError,
    EOFError,
    NotImplementedError,
    RuntimeError,
)
_DAMAGED = f"This workbook is damaged and cannot be read. {HOW_TO_SAVE}"
_OTHER_CONTENTS = {
    "xl/workbook.bin": "a binary workbook (.xlsb)",
    "word/document.xml": "a text document",
    "ppt/presentation.xml": "a presentation",
    "content.xml": "an OpenDocument file (.ods)",
    "Index/Document.iwa": "a Numbers document",
    "Index.zip": "a Numbers document",
}


def read_xlsx(data: bytes) -> Sheet:
    """Read the first visible sheet with any text; what else the workbook has is noted.

    Of a formula the result last computed is read. Where there is none the row becomes a
    problem, since this program computes no formulas.
    """
    has_formulas = _check_archive(data)
    try:
        with warnings.catch_warnings():
            # The library warns of styles and validations it leaves out; we read none.
            warnings.simplefilter("ignore", UserWarning)
            return _read_workbook(data, has_formulas=has_formulas)
    except TableError:
        raise
    except _DAMAGE as error:
        raise TableError(_DAMAGED) from error


def _check_archive(data: bytes) -> bool:
    """Refuse what is no workbook or unpacks to too much; tell whether it has formulas."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            _check_contents(archive.namelist())
            sheets = [part for part in archive.infolist() if _is_large_by_nature(part.filename)]
            _check_sizes(archive, sheets)
            return any(_has_formula(archive.read(part)) for part in sheets)
    except TableError:
        raise
    except _DAMAGE as error:
        raise TableError(_DAMAGED) from error


def _check_contents(names: list[str]) -> None:
    if "xl/workbook.xml" in names:
        return
    for name, kind in _OTHER_CONTENTS.items():
        if name in names:
            raise TableError(f"This is {kind}, which is not read here. {HOW_TO_SAVE}")
    raise TableError(f"This is a ZIP archive without a workbook in it. {HOW_TO_SAVE}")


def _is_large_by_nature(name: str) -> bool:
    return name.startswith("xl/worksheets/") or name == "xl/sharedStrings.xml"


def _check_sizes(archive: zipfile.ZipFile, sheets: list[zipfile.ZipInfo]) -> None:
    others = [part for part in archive.infolist() if part.filename.endswith((".xml", ".rels"))]
    if sum(part.file_size for part in sheets) > _MOST_SHEET_BYTES:
        raise TableError(f"This workbook is too large to read in one go. {HOW_TO_SPLIT}")
    if sum(part.file_size for part in others if part not in sheets) > _MOST_OTHER_BYTES:
        raise TableError(f"This workbook holds far more than a table. {HOW_TO_SAVE}")


def _has_formula(part: bytes) -> bool:
    return re.search(rb"<(\w+:)?f[ />]", part) is not None


def _read_workbook(data: bytes, *, has_formulas: bool) -> Sheet:
    results = _opened(data, data_only=True)
    formulas = _opened(data, data_only=False) if has_formulas else None
    visible = [sheet for sheet in results.worksheets if sheet.sheet_state == "visible"]
    lines = {
        sheet.title: _lines(sheet, formulas[sheet.title] if formulas else None) for sheet in visible
    }
    titles = iter(lines)
    for title in titles:
        if gathered := filled(lines[title]):
            unread = [f"“{other}”" for other in titles if any(lines[other])]
            return Sheet(
                gathered, has_exact_widths=False, notes=_notes(title, unread, has_formulas)
            )
    raise TableError("This workbook has no visible sheet with anything in it.")


def _opened(data: bytes, *, data_only: bool) -> Workbook:
    return load_workbook(io.BytesIO(data), read_only=True, data_only=data_only, keep_links=False)


def _notes(title: str, unread: list[str], has_formulas: bool) -> tuple[str, ...]:
    notes = []
    if unread:
        notes.append(f"Only the sheet “{title}” was read; not read: {', '.join(unread)}.")
    if has_formulas:
        notes.append("This workbook has formulas; the results they had when saved were read.")
    return tuple(notes)


def _lines(results: Any, formulas: Any) -> Iterator[Line]:
    """Pair the cells' results with their formulas; ``formulas`` may be None."""
    formula_rows = _rows(formulas) if formulas is not None else repeat(())
    empty_rows = 0
    for row_number, (row, formula_row) in enumerate(
        zip(_rows(results), formula_rows, strict=False), 1
    ):
        line = _line(row_number, row, formula_row)
        empty_rows = 0 if any(line.cells) else empty_rows + 1
        if empty_rows > _MOST_EMPTY_ROWS:
            return
        if not empty_rows:
            yield line


def _rows(worksheet: Any) -> Iterator[tuple[AnyCell, ...]]:
    # What a sheet says of its own size is often wrong and would cut rows off.
    worksheet.reset_dimensions()
    rows: Iterator[tuple[AnyCell, ...]] = worksheet.iter_rows(max_col=MOST_COLUMNS + 1)
    return rows


def _line(row_number: int, row: tuple[AnyCell, ...], formula_row: tuple[AnyCell, ...]) -> Line:
    width = max(_filled_width(row), _filled_width(formula_row))
    if width > MOST_COLUMNS:
        raise TableError(f"Row {row_number} has more than {MOST_COLUMNS} columns.")
    texts: list[str] = []
    problem = ""
    for column, cell in enumerate(row[:width], 1):
        formula = formula_in(formula_row[column - 1]) if formula_row else None
        problem = problem or formula_problem(row_number, column, cell, formula)
        texts.append(unguarded(cell_text(cell)) or formula or "")
    return Line(row_number, tuple(texts), problem)


def _filled_width(row: tuple[AnyCell, ...]) -> int:
    return next((at for at in range(len(row), 0, -1) if row[at - 1] is not EMPTY_CELL), 0)
