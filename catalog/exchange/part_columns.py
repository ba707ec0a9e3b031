"""What the columns of a list of parts may mean, and what each of them most likely does."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import islice

from catalog.exchange.part_cells import read_usability
from catalog.exchange.tables import Table, guess_columns
from catalog.reckoning.lengths import LengthError, parse_length
from catalog.reckoning.numbers import AccessionNumberError, parse_accession_number

IGNORE = "ignore"
REMARK = "remark"
NUMBER = "number"
LINE = "line"
MEASUREMENT = "measurement"

FIELDS: Mapping[str, str] = {
    "component": "component, what it is",
    "description": "in words",
    "quantity": "how many",
    NUMBER: "number: the same number is the same part",
    LINE: "line number of the list only",
    "tag": "tag",
    "usability": "usability",
    "condition": "condition",
    "survives": "how much of the piece survives",
    "material": "material",
    "mass": "mass",
    "marks": "marks, with ; between them",
    MEASUREMENT: "measurement, named by the heading",
    "location": "location, such as Shed / rack 2 / box 4",
    REMARK: "remarks",
    IGNORE: "left out",
}
# These may be the meaning of several columns; every other field is read from one column only.
SHARED = {REMARK, IGNORE, MEASUREMENT, "marks"}
_SAMPLES = 3
_MOST_LENGTHS = 0.8
_CELLS_TO_JUDGE_BY = 200
_DIMENSIONS = "dimensions"
_GUESSED = (
    *(field for field in FIELDS if field not in {LINE, MEASUREMENT, IGNORE}),
    _DIMENSIONS,
)


@dataclass(frozen=True, slots=True)
class Column:
    """One column as it is shown for correction: heading, what it may hold, first values."""

    index: int
    heading: str
    samples: tuple[str, ...]
    field: str


def columns_of(table: Table, fields: Sequence[str] = ()) -> tuple[Column, ...]:
    """Describe the columns of ``table`` with their ``fields``, guessed where none are given."""
    meanings = fields or guess_fields(table)
    return tuple(
        Column(index, heading, tuple(islice(_cells(table, index), _SAMPLES)), meanings[index])
        for index, heading in enumerate(table.header)
    )


def guess_fields(table: Table) -> tuple[str, ...]:
    """Guess what each column means; what has lengths in it becomes a measurement."""
    guesses = guess_columns(table.header, (row.cells for row in table.rows), _GUESSED)
    fields = tuple(_refined(table, index, guesses[index]) for index in range(len(table.header)))
    # Two columns that say what a piece is good for are one usability and one condition.
    repeated = fields.count("usability") > 1
    return tuple(
        "condition" if repeated and field == "usability" and guesses[index] != field else field
        for index, field in enumerate(fields)
    )


def _refined(table: Table, index: int, guess: str) -> str:
    cells = list(islice(_cells(table, index), _CELLS_TO_JUDGE_BY))
    if guess == NUMBER:
        return LINE if _counts_lines(cells) else NUMBER
    if guess == "condition":
        return "usability" if cells and all(map(read_usability, cells)) else guess
    if guess in {REMARK, _DIMENSIONS}:
        heading = table.header[index]
        dimension = guess_columns([heading], [], [_DIMENSIONS])[0] == _DIMENSIONS
        return MEASUREMENT if dimension and _are_lengths(cells) else REMARK
    return guess


def _cells(table: Table, index: int) -> "filter[str]":
    return filter(None, (row.cells[index] for row in table.rows))


def _counts_lines(cells: list[str]) -> bool:
    return len(cells) > 1 and cells == [str(number) for number in range(1, len(cells) + 1)]


def _are_lengths(cells: list[str]) -> bool:
    return bool(cells) and sum(map(_is_length, cells)) >= _MOST_LENGTHS * len(cells)


def _is_length(cell: str) -> bool:
    try:
        parse_length(cell, default_unit="in")
    except LengthError:
        return False
    return True


def is_accession_number(cell: str) -> bool:
    """Tell a number of this catalog, such as 2026.4.17, from one that the group gave itself."""
    try:
        return parse_accession_number(cell).item is not None
    except AccessionNumberError:
        return False
