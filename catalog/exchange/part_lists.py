"""A whole list of parts, each row weighed against the other rows and against the record."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from catalog.exchange.part_rows import ListReader, RowReading
from catalog.exchange.tables import ProblemRow, Table, write_problems
from catalog.models import Accession
from catalog.queries.components import ComponentNames
from catalog.queries.imports import (
    KnownRow,
    LocationNames,
    PartReading,
    known_rows,
)
from catalog.queries.tags import bearers_of, taken_words


class RowState(StrEnum):
    """What becomes of a row when the list is read in."""

    GOOD = "good"
    PROBLEM = "problem"
    HERE = "here"
    DIFFERS = "differs"


@dataclass(frozen=True, slots=True)
class ListedRow:
    """One row of the list, with what it is read as and what becomes of it."""

    line_number: int
    cells: tuple[str, ...]
    state: RowState
    part: PartReading | None = None
    notes: tuple[str, ...] = ()
    problems: tuple[str, ...] = ()
    known: KnownRow | None = None
    makes_location: bool = False


@dataclass(frozen=True, slots=True)
class PartList:
    """A list of parts as it would be read in now."""

    header: tuple[str, ...]
    rows: tuple[ListedRow, ...]
    notes: tuple[str, ...]

    @property
    def counts(self) -> dict[str, int]:
        found = Counter(row.state for row in self.rows)
        return {state.value: found[state] for state in RowState}

    def in_state(self, state: str) -> tuple[ListedRow, ...]:
        return tuple(row for row in self.rows if row.state == state)

    @property
    def good_parts(self) -> tuple[PartReading, ...]:
        return tuple(row.part for row in self.in_state(RowState.GOOD) if row.part is not None)

    @property
    def new_locations(self) -> tuple[str, ...]:
        made = (row.part.location for row in self.rows if row.part and row.makes_location)
        return tuple(dict.fromkeys(made))

    def problem_file(self) -> bytes:
        """Write the problem rows as CSV, the reason in the first column."""
        rows = self.in_state(RowState.PROBLEM)
        told = [ProblemRow(row.line_number, row.cells, " ".join(row.problems)) for row in rows]
        header, told = _without_former_reasons(self.header, told)
        return write_problems(header, told)


def read_list(
    table: Table,
    fields: Sequence[str],
    *,
    accession: Accession | None = None,
    unit: str = "",
    refusals: Mapping[str, str] | None = None,
) -> PartList:
    """Read ``table``, whose columns mean ``fields``, as parts of ``accession``.

    A number of queries that does not grow with the list. ``refusals`` are what the record
    refused when the list was read in, by line.
    """
    accessions = {row.number: row for row in Accession.objects.kept()}
    reader = ListReader(table.header, fields, ComponentNames.gather(), accessions, accession, unit)
    readings = _told_apart([reader.read(row) for row in table.rows])
    readings = [*_with_refusals(_with_repeats(readings), refusals or {})]
    broken = [
        ListedRow(row.line_number, row.cells, RowState.PROBLEM, problems=(row.problem,))
        for row in table.problems
    ]
    rows = sorted([*_settled(readings), *broken], key=lambda row: row.line_number)
    return PartList(table.header, tuple(rows), table.notes)


def _told_apart(readings: list[RowReading]) -> list[RowReading]:
    """Count rows of the same content, so that two alike stand for two parts each time."""
    seen: Counter[str] = Counter()
    found = []
    for reading in readings:
        key = reading.part.key
        seen[key] += 1
        if key.startswith("row ") and seen[key] > 1:
            part = replace(reading.part, key=f"{key} {seen[key]}")
            reading = replace(reading, part=part)
        found.append(reading)
    return found


def _with_repeats(readings: list[RowReading]) -> Iterable[RowReading]:
    keys = _lines_by(readings, lambda part: part.key)
    tags = _lines_by(readings, lambda part: part.tag)
    for reading in readings:
        part, line = reading.part, reading.line_number
        problems = [
            *_repeat("This number", keys.get(part.key, []), line),
            *_repeat(f"Tag {part.tag}", tags.get(part.tag, []), line),
        ]
        yield _refused(reading, problems)


def _lines_by(readings: list[RowReading], name: Any) -> dict[Any, list[int]]:
    lines: dict[Any, list[int]] = {}
    for reading in readings:
        if name(reading.part):
            lines.setdefault(name(reading.part), []).append(reading.line_number)
    return lines


def _repeat(what: str, lines: list[int], line: int) -> Iterable[str]:
    others = [str(other) for other in lines if other != line]
    if others:
        where = "line" if len(others) == 1 else "lines"
        yield (
            f"{what} stands on {where} {', '.join(others)} of this list too; only one can be right."
        )


def _with_refusals(
    readings: Iterable[RowReading], refusals: Mapping[str, str]
) -> Iterable[RowReading]:
    for reading in readings:
        refusal = refusals.get(str(reading.line_number))
        yield _refused(reading, [refusal] if refusal else [])


def _refused(reading: RowReading, problems: list[str]) -> RowReading:
    if not problems:
        return reading
    return replace(reading, problems=(*reading.problems, *problems))


def _settled(readings: list[RowReading]) -> Iterable[ListedRow]:
    """Weigh the rows against the record: known already, different, refused, or good."""
    clean = [reading.part for reading in readings if not reading.problems]
    known = known_rows(clean)
    tags = [part.tag for part in clean if part.tag and part.line_number not in known]
    bearers = bearers_of(tags)
    locations = LocationNames.gather()
    for reading in readings:
        part = reading.part
        bearer = bearers.get(part.tag or "")
        problems = reading.problems
        if bearer is not None and part.line_number not in known:
            problems = (*problems, taken_words(str(part.tag), bearer))
        state = _state(problems, known.get(part.line_number))
        yield ListedRow(
            reading.line_number,
            reading.cells,
            state,
            part,
            reading.notes,
            problems,
            known.get(part.line_number),
            state == RowState.GOOD
            and bool(part.location)
            and locations.find(part.location) is None,
        )


def _state(problems: Sequence[str], known: KnownRow | None) -> RowState:
    if problems:
        return RowState.PROBLEM
    if known is None:
        return RowState.GOOD
    return RowState.DIFFERS if known.differences else RowState.HERE


def _without_former_reasons(
    header: tuple[str, ...], rows: list[ProblemRow]
) -> tuple[tuple[str, ...], list[ProblemRow]]:
    """Drop the reasons of an earlier download, so that only the newest ones stand there."""
    if not header or header[0].casefold() != "problem":
        return header, rows
    return header[1:], [replace(row, cells=row.cells[1:]) for row in rows]
