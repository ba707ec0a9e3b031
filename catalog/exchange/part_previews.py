"""What a person is shown of a list before it is read in: each row in words, and the counts."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from catalog.exchange.part_lists import ListedRow, PartList, RowState
from catalog.models import Part
from catalog.queries.imports import PartReading, RowDifference

# Rows with problems and differences are all shown; of the others, these.
MOST_ROWS = 200
_COUNTED = {
    RowState.GOOD: "good",
    RowState.PROBLEM: "with problems",
    RowState.DIFFERS: "different from the record",
    RowState.HERE: "already here",
}


@dataclass(frozen=True, slots=True)
class PreviewRow:
    """One row in words: what it is, and what else is read of it."""

    line_number: int
    title: str
    names: str
    quantity: int
    location: str
    makes_location: bool
    facts: tuple[tuple[str, str], ...]
    cells: str
    notes: tuple[str, ...]
    problems: tuple[str, ...]
    differences: tuple[RowDifference, ...]
    part: Part | None


@dataclass(frozen=True, slots=True)
class Preview:
    """The whole list: counts in words, every row that needs a person, and the first others."""

    summary: str
    counts: dict[str, int]
    problems: tuple[PreviewRow, ...]
    different: tuple[PreviewRow, ...]
    good: tuple[PreviewRow, ...]
    here: tuple[PreviewRow, ...]
    new_locations: tuple[str, ...]
    notes: tuple[str, ...]


def preview_of(parts: PartList) -> Preview:
    return Preview(
        summary=summary_of(parts),
        counts=parts.counts,
        problems=_shown(parts.in_state(RowState.PROBLEM)),
        different=_shown(parts.in_state(RowState.DIFFERS)),
        good=_shown(parts.in_state(RowState.GOOD)[:MOST_ROWS]),
        here=_shown(parts.in_state(RowState.HERE)[:MOST_ROWS]),
        new_locations=parts.new_locations,
        notes=parts.notes,
    )


def summary_of(parts: PartList) -> str:
    """Say the counts in words, such as “31 good, 2 with problems, 4 already here”."""
    counts = parts.counts
    told = [f"{counts[state]:,} {words}" for state, words in _COUNTED.items() if counts[state]]
    return ", ".join(told)


def _shown(rows: Iterable[ListedRow]) -> tuple[PreviewRow, ...]:
    return tuple(_row(row) for row in rows)


def _row(row: ListedRow) -> PreviewRow:
    part = row.part or PartReading(row.line_number)
    names = filter(None, [str(part.number or ""), part.tag and f"tag {part.tag}"])
    return PreviewRow(
        line_number=row.line_number,
        title=str(part.component or part.values.get("description", "")),
        names=", ".join(names),
        quantity=part.values.get("quantity", 1),
        location=part.location,
        makes_location=row.makes_location,
        facts=tuple(_facts(part)),
        cells=" · ".join(filter(None, row.cells)),
        notes=row.notes,
        problems=row.problems,
        differences=row.known.differences if row.known else (),
        part=row.known.part if row.known else None,
    )


def _facts(part: PartReading) -> Iterable[tuple[str, str]]:
    if part.component and "description" in part.values:
        yield "in words", part.values["description"]
    for name, (label, words) in _WORDS.items():
        if name in part.values:
            yield label, words(part.values[name])
    if part.marks:
        yield "marks", "; ".join(part.marks)
    for name, length in part.measurements:
        yield name, f"{length.text} ({float(length.mm):.1f} mm)"


_WORDS: dict[str, tuple[str, Callable[[Any], str]]] = {
    "surviving_share": ("survives", lambda share: f"{(share * 100).normalize():f} %"),
    "usability": ("usability", lambda use: Part.Usability(use).label),
    "mass_kg": ("mass", lambda mass: f"{mass.normalize():f} kg"),
    "condition": ("condition", str),
    "material": ("material", str),
    "remarks": ("remarks", str),
}
