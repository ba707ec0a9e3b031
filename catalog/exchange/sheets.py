"""What every reader of spreadsheets hands over, and the limits they all keep."""

from collections.abc import Iterator
from dataclasses import dataclass

MOST_ROWS = 20_000
MOST_COLUMNS = 200
# Titles and notes may stand above the header without counting against the limit.
_ROWS_ABOVE_HEADER = 50

HOW_TO_SAVE = (
    "Open it in the spreadsheet program, choose “Save as” or “Export”, pick XLSX or CSV, "
    "and import that file."
)
HOW_TO_SPLIT = (
    f"Split it into files of at most {MOST_ROWS:,} rows, each with the header on top, "
    "and import them one after another."
)
TOO_LONG = f"This spreadsheet has more than {MOST_ROWS:,} rows. {HOW_TO_SPLIT}"


class TableError(ValueError):
    """A file that cannot be read as a spreadsheet; the message says why and what helps."""


@dataclass(frozen=True, slots=True)
class Line:
    """One row of a sheet as text, with the reason why it cannot be used, if any."""

    line_number: int
    cells: tuple[str, ...]
    problem: str = ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """The rows of one sheet without the empty ones.

    In a workbook, empty cells at the end of a row are not written, so a short row means
    nothing; in a text file (``has_exact_widths``) it means that something went wrong.
    """

    lines: tuple[Line, ...]
    has_exact_widths: bool
    notes: tuple[str, ...] = ()


def filled(lines: Iterator[Line]) -> tuple[Line, ...]:
    """Gather the lines that have any text, refusing to gather without end."""
    gathered: list[Line] = []
    for line in lines:
        if not any(line.cells):
            continue
        gathered.append(line)
        if len(gathered) > MOST_ROWS + _ROWS_ABOVE_HEADER:
            raise TableError(TOO_LONG)
    return tuple(gathered)
