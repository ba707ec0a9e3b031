"""Read the rows of a list as parts: what is understood, what is kept as words, what is wrong."""

import hashlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from catalog.exchange.part_cells import (
    CellError,
    read_marks,
    read_mass,
    read_measurement,
    read_quantity,
    read_share,
    read_tag,
    read_usability,
)
from catalog.exchange.part_columns import IGNORE, LINE, NUMBER, REMARK, is_accession_number
from catalog.exchange.tables import Row
from catalog.models import Accession, Component
from catalog.queries.components import ComponentNames, spelling
from catalog.queries.imports import PartReading, location_names
from catalog.reckoning.lengths import Length
from catalog.reckoning.numbers import AccessionNumber, parse_accession_number

_MOST_CHARACTERS = {"description": 240, "material": 60, "condition": 240}
_LONGEST_MARK = 120
_PLAIN_HEADINGS = {"remark", "remarks", "note", "notes", "comment", "comments"}
# The column that an earlier import wrote; it says nothing about the part.
_PROBLEM = "problem"


@dataclass(frozen=True, slots=True)
class RowReading:
    """A row with what it is read as, harmless ``notes``, and ``problems`` that keep it out."""

    line_number: int
    cells: tuple[str, ...]
    part: PartReading
    notes: tuple[str, ...] = ()
    problems: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ListReader:
    """Read rows under one choice of what the columns mean.

    ``accessions`` are by number, for rows that carry one; ``accession`` is that of the list.
    """

    header: Sequence[str]
    fields: Sequence[str]
    names: ComponentNames
    accessions: Mapping[str, Accession]
    accession: Accession | None = None
    unit: str = ""

    def read(self, row: Row) -> RowReading:
        draft = _Draft(self, notes=list(row.notes))
        for heading, meaning, cell in zip(self.header, self.fields, row.cells, strict=True):
            if cell and meaning not in {IGNORE, LINE}:
                draft.take(meaning, heading, cell)
        fingerprint = _fingerprint(self.header, row.cells)
        return RowReading(
            row.line_number,
            row.cells,
            draft.part(row.line_number, fingerprint),
            tuple(draft.notes),
            tuple(draft.problems),
        )


@dataclass(slots=True)
class _Draft:
    """What has been read of one row so far."""

    reader: ListReader
    notes: list[str] = field(default_factory=list)
    problems: list[str] = field(default_factory=list)
    values: dict[str, Any] = field(default_factory=dict)
    remarks: list[str] = field(default_factory=list)
    marks: list[str] = field(default_factory=list)
    measurements: list[tuple[str, Length]] = field(default_factory=list)
    component: Component | None = None
    component_words: str = ""
    location: str = ""
    number: AccessionNumber | None = None
    own_number: str = ""

    def take(self, meaning: str, heading: str, cell: str) -> None:
        try:
            _TAKERS[meaning](self, heading, cell)
        except CellError as problem:
            self.problems.append(str(problem))

    def take_component(self, heading: str, cell: str) -> None:
        found = self.reader.names.called(cell)
        if len(found) == 1:
            self.component = found[0]
            if spelling(cell) != spelling(found[0].name):
                self.notes.append(f"“{cell}” is known here as {found[0]}.")
            return
        self.component_words = cell
        why = f"may be {' or '.join(map(str, found))}" if found else "is no component known here"
        self.notes.append(f"“{cell}” {why}: kept as words, nothing identified.")

    def take_text(self, name: str, cell: str) -> None:
        if len(cell) > (most := _MOST_CHARACTERS[name]):
            raise CellError(
                f"{name.capitalize()} has {len(cell)} characters where {most} fit. Shorten it, "
                "and put the rest into the remarks."
            )
        self.values[name] = cell

    def take_description(self, heading: str, cell: str) -> None:
        self.take_text("description", cell)

    def take_material(self, heading: str, cell: str) -> None:
        self.take_text("material", cell)

    def take_condition(self, heading: str, cell: str) -> None:
        self.take_text("condition", cell)

    def take_number(self, heading: str, cell: str) -> None:
        if not is_accession_number(cell):
            self.own_number = cell
            self.remarks.append(f"{heading}: {cell}")
            return
        self.number = parse_accession_number(cell)
        whole = f"{self.number.year}.{self.number.accession}"
        listed = self.reader.accession
        if listed is not None and listed.number != whole:
            raise CellError(
                f"{self.number} belongs to donation {whole}, but this list is read into {listed}."
            )
        if whole not in self.reader.accessions:
            raise CellError(
                f"There is no donation {whole} for {self.number}. Record the donation first."
            )

    def take_usability(self, heading: str, cell: str) -> None:
        use = read_usability(cell)
        if use is None:
            self.remarks.append(f"{heading}: {cell}")
            self.notes.append(f"“{cell}” is no usability: kept as a remark, not assessed.")
        else:
            self.values["usability"] = use

    def take_mass(self, heading: str, cell: str) -> None:
        mass = read_mass(cell, heading)
        if mass is None:
            self.remarks.append(f"{heading}: {cell}")
            self.notes.append(f"“{cell}” is no mass in kg or lb: kept as a remark.")
        else:
            self.values["mass_kg"] = mass

    def take_marks(self, heading: str, cell: str) -> None:
        marks = read_marks(cell)
        if any(len(mark) > _LONGEST_MARK for mark in marks):
            raise CellError(
                f"A mark has more than {_LONGEST_MARK} characters; put ; between marks."
            )
        self.marks += marks

    def take_measurement(self, heading: str, cell: str) -> None:
        self.measurements.append((heading[:80], read_measurement(cell, heading, self.reader.unit)))

    def take_location(self, heading: str, cell: str) -> None:
        names = location_names(cell)
        if any(len(name) > 80 for name in names):
            raise CellError("The name of a location has more than 80 characters.")
        self.location = " › ".join(names)

    def take_remark(self, heading: str, cell: str) -> None:
        is_plain = heading.casefold() in _PLAIN_HEADINGS
        self.remarks.append(cell if is_plain else f"{heading}: {cell}")

    def take_share(self, heading: str, cell: str) -> None:
        self.values["surviving_share"] = read_share(cell)

    def take_quantity(self, heading: str, cell: str) -> None:
        self.values["quantity"] = read_quantity(cell)

    def take_tag(self, heading: str, cell: str) -> None:
        self.values["tag"] = read_tag(cell)

    def part(self, line_number: int, fingerprint: str) -> PartReading:
        self._say_what_it_is()
        values = {**self.values, "remarks": "\n".join(self.remarks)}
        return PartReading(
            line_number=line_number,
            values={name: value for name, value in values.items() if value != ""},
            accession=self._accession(),
            number=self.number,
            component=self.component,
            location=self.location,
            marks=tuple(self.marks),
            measurements=tuple(self.measurements),
            key=self._key(fingerprint),
            fingerprint=fingerprint,
        )

    def _say_what_it_is(self) -> None:
        words = self.component_words
        described = self.values.get("description", "")
        if words:
            both = f"{words}: {described}" if described else words
            self.take("description", "description", both)
        elif self.component is None and described:
            # The words may be a component's very name; then nothing needs to be said twice.
            self.component = self.reader.names.find(described)
        says = (self.component, self.values.get("description"), self.values.get("tag"))
        if not any((*says, self.marks, self.number, self.problems)):
            self.problems.append(
                "Nothing says what this is: give a component, some words, a mark or a tag."
            )

    def _accession(self) -> Accession | None:
        if self.number is None:
            return self.reader.accession
        return self.reader.accessions.get(f"{self.number.year}.{self.number.accession}")

    def _key(self, fingerprint: str) -> str:
        if self.number is not None:
            return f"number {self.number}"
        if self.own_number:
            return f"own {self.own_number.casefold()}"[:120]
        return f"row {fingerprint}"


_TAKERS: Mapping[str, Callable[[_Draft, str, str], None]] = {
    "component": _Draft.take_component,
    "quantity": _Draft.take_quantity,
    NUMBER: _Draft.take_number,
    "tag": _Draft.take_tag,
    "usability": _Draft.take_usability,
    "survives": _Draft.take_share,
    "mass": _Draft.take_mass,
    "marks": _Draft.take_marks,
    "measurement": _Draft.take_measurement,
    "location": _Draft.take_location,
    REMARK: _Draft.take_remark,
    "description": _Draft.take_description,
    "material": _Draft.take_material,
    "condition": _Draft.take_condition,
}


def _fingerprint(header: Sequence[str], cells: Sequence[str]) -> str:
    """Return what a row is recognized by, whatever its columns are taken to mean.

    Empty cells at the end do not count: programs add and drop them.
    """
    cells_of_part = (
        cell for heading, cell in zip(header, cells, strict=True) if heading.casefold() != _PROBLEM
    )
    told = "\x1f".join(cells_of_part).rstrip("\x1f")
    return hashlib.sha256(told.encode()).hexdigest()
