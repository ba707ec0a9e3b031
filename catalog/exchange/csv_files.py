"""Read and write tables kept as text: comma, semicolon, tab or bar between the cells."""

import codecs
import csv
import io
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice

from catalog.exchange.sheets import HOW_TO_SAVE, MOST_COLUMNS, Line, Sheet, TableError, filled

_DELIMITERS = ",;\t|"
_ROWS_TO_JUDGE_BY = 50
# A cell of more lines than this is taken for a quotation mark that was never closed.
_MOST_LINES_IN_A_CELL = 100
_UNPAIRED = "The quotation marks in this line are not in pairs."
_UNREADABLE = "\ufffd"
_LENIENT = ("utf-8-sig", "replace")
_MOST_UNREADABLE = 0.05
_HAS_UNREADABLE = f"A character in this row cannot be read; it is shown as {_UNREADABLE}."
_NO_TEXT = re.compile(r"[\x00-\x08\x0e-\x1f]")
_MARKUP = re.compile(r"\s*<(!doctype|html|\?xml|table|svg)", re.IGNORECASE)
# A spreadsheet program takes cells that begin so for formulas and runs them.
_FORMULA_SIGNS = ("=", "+", "-", "@", "\t", "\r")


def read_csv(data: bytes) -> Sheet:
    """Read ``data`` as text, guessing its encoding and what stands between the cells."""
    text = _decoded(data)
    if _MARKUP.match(text):
        raise TableError(f"This is a web page or another document with markup. {HOW_TO_SAVE}")
    lines = list(io.StringIO(text, newline=""))
    # Some spreadsheet programs name the delimiter in a line of its own.
    named = re.fullmatch(r"sep=(.)[\r\n]*", lines[0]) if lines else None
    delimiter = named[1] if named else _delimiter(lines)
    start = 1 if named else 0
    records = filled(_records(lines, delimiter, start))
    for record in records:
        if len(record.cells) > MOST_COLUMNS:
            raise TableError(f"Line {record.line_number} has more than {MOST_COLUMNS} columns.")
    return Sheet(records, has_exact_widths=True)


def write_csv(header: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """Write a table that every spreadsheet program opens, and that runs no formulas.

    A cell that a program would take for a formula gets an apostrophe in front, which
    reading takes away again.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    for row in (header, *rows):
        writer.writerow([_guarded(cell) for cell in row])
    return text.getvalue().encode("utf-8-sig")


def unguarded(cell: str) -> str:
    """Take away the one apostrophe that writing put before a formula sign.

    >>> unguarded("'=2*3"), unguarded("'tis"), unguarded("''=2*3")
    ('=2*3', "'tis", "'=2*3")
    """
    return cell[1:] if cell.startswith("'") and _looks_like_formula(cell) else cell


def _guarded(cell: str) -> str:
    return f"'{cell}" if _looks_like_formula(cell) else cell


def _looks_like_formula(cell: str) -> bool:
    # Apostrophes in front are looked through, so that one more can be put and taken.
    return cell.lstrip("'").startswith(_FORMULA_SIGNS)


def _decoded(data: bytes) -> str:
    """Turn bytes into text, leaving a mark where single characters cannot be read."""
    for encoding, errors in (*((name, "strict") for name in _encodings(data)), _LENIENT):
        try:
            text = data.decode(encoding, errors)
        except UnicodeDecodeError:
            # Not this encoding; the next one is tried.
            continue
        if not _NO_TEXT.search(text) and text.count(_UNREADABLE) <= len(text) * _MOST_UNREADABLE:
            return text
    raise TableError(f"This file is not a spreadsheet. If it should be one: {HOW_TO_SAVE}")


def _encodings(data: bytes) -> tuple[str, ...]:
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return ("utf-16",)
    start = data[:200]
    if start[1::2].count(0) > len(start) // 4:
        return ("utf-16-le",)
    if start[::2].count(0) > len(start) // 4:
        return ("utf-16-be",)
    return ("utf-8-sig", "cp1252")


def _delimiter(lines: list[str]) -> str:
    """Choose the delimiter by which most rows fall into the same number of cells."""

    def fitness(delimiter: str) -> tuple[float, int]:
        records = islice(_records(lines, delimiter, 0), _ROWS_TO_JUDGE_BY)
        filled_records = [record for record in records if any(record.cells)]
        widths = Counter(len(record.cells) for record in filled_records if not record.problem)
        del widths[1]
        width, rows = widths.most_common(1)[0] if widths else (0, 0)
        return rows / max(len(filled_records), 1), width

    return max(_DELIMITERS, key=fitness)


def _records(lines: list[str], delimiter: str, start: int) -> Iterator[Line]:
    """Split ``lines`` into rows, so that one broken row takes no other with it.

    Line numbers count from 1; a row whose cell spans lines has the number of its first.
    """
    at = start
    while at < len(lines):
        reader = csv.reader(
            lines[at : at + _MOST_LINES_IN_A_CELL],
            delimiter=delimiter,
            skipinitialspace=delimiter != "\t",
            strict=True,
        )
        try:
            cells, problem, taken = next(reader, []), "", reader.line_num
        except csv.Error:
            cells, problem, taken = lines[at].split(delimiter), _UNPAIRED, 1
        if any(_UNREADABLE in cell for cell in cells):
            problem = problem or _HAS_UNREADABLE
        yield Line(at + 1, tuple(unguarded(cell.strip()) for cell in cells), problem)
        at += max(taken, 1)
