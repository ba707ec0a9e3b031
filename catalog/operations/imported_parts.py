"""A row of a list made into a part with its marks, readings, identification and first move."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from django.core.exceptions import ValidationError
from django.db import models

from catalog.models import (
    Accession,
    Characteristic,
    Identification,
    ImportBatch,
    ImportedRow,
    Location,
    Measurement,
    Member,
    Move,
    Part,
    PartMark,
)
from catalog.operations.measurements import reading_fields
from catalog.operations.parts import hold_accession, last_item, number_fields, whole_quantity
from catalog.operations.record_many import check_fields, index_new, record_many
from catalog.queries.components import spelling
from catalog.queries.identifications import kinds_of
from catalog.queries.imports import PartReading, numbers_ever_given
from catalog.queries.tags import bearers_of, taken_words
from catalog.reckoning.numbers import AccessionNumber


@dataclass(frozen=True, slots=True)
class Whence:
    """Which list the rows are from, who reads it in, and when."""

    batch: ImportBatch
    by: Member
    at: datetime


@dataclass(slots=True)
class Bundle:
    """A part that is not in the record yet, and what comes with it."""

    part: Part
    row: ImportedRow
    moves: list[Move] = field(default_factory=list)
    marks: list[PartMark] = field(default_factory=list)
    measurements: list[Measurement] = field(default_factory=list)
    identifications: list[Identification] = field(default_factory=list)

    def records(self) -> Iterable[models.Model]:
        return (self.part, self.row, *self.moves, *self.marks, *self.measurements)


class Numbers:
    """Numbers given one after another within accessions that are held meanwhile."""

    def __init__(self, rows: Iterable[PartReading]) -> None:
        asked = {str(row.number) for row in rows if row.number}
        self.given = numbers_ever_given(asked)
        self.last: dict[int, int] = {}
        self.held: dict[int, Accession] = {}

    def fields(self, row: PartReading) -> dict[str, Any]:
        """Return the number that ``row`` asks for, or else the next one of its accession."""
        if row.accession is None:
            return {}
        held = self._hold(row.accession)
        number = row.number
        if number is None:
            number = AccessionNumber(held.year, held.serial, self.last[held.pk] + 1)
        elif str(number) in self.given:
            raise ValidationError(f"Number {number} was given to a part before.")
        self.last[held.pk] = max(self.last[held.pk], number.item or 0)
        self.given.add(str(number))
        return {"accession": held, **number_fields(number)}

    def _hold(self, accession: Accession) -> Accession:
        if accession.pk not in self.held:
            self.held[accession.pk] = hold_accession(accession)
            self.last[accession.pk] = last_item(accession)
        return self.held[accession.pk]


class Characteristics:
    """Which readings are of a characteristic of the component, by its name."""

    def __init__(self, rows: Iterable[PartReading]) -> None:
        self.kinds = kinds_of(row.component.pk for row in rows if row.component)
        wanted = {key for kinds in self.kinds.values() for key in kinds}
        self.rows = list(Characteristic.objects.filter(component__in=wanted))

    def called(self, name: str, row: PartReading) -> Characteristic | None:
        if row.component is None:
            return None
        kinds = self.kinds[row.component.pk]
        wanted = spelling(name)
        return next(
            (
                one
                for one in self.rows
                if one.component_id in kinds and spelling(one.name) == wanted
            ),
            None,
        )


def bundles_of(
    rows: list[PartReading], whence: Whence, locations: Mapping[str, Location]
) -> tuple[list[Bundle], dict[int, str]]:
    """Make each of ``rows`` into a bundle, or say by its line why the record refuses it."""
    # Rows with numbers of their own come first, so that no number is given away before them.
    ordered = sorted(rows, key=lambda row: (row.number is None, row.line_number))
    numbers, characteristics = Numbers(rows), Characteristics(rows)
    bearers = bearers_of(row.tag for row in rows if row.tag)
    bundles, refused = [], {}
    for row in ordered:
        try:
            if row.tag in bearers:
                raise ValidationError(taken_words(row.tag, bearers[row.tag]))
            bundle = _bundle(row, whence, numbers.fields(row), locations.get(row.location))
            bundle.measurements = _measurements(row, bundle.part, whence, characteristics)
            for record in bundle.records():
                check_fields(record)
            bundles.append(bundle)
        except ValidationError as refusal:
            refused[row.line_number] = " ".join(refusal.messages)
    return bundles, refused


def record_bundles(bundles: list[Bundle], *, by: Member) -> None:
    """Record the parts first, and then everything that hangs on them."""
    record_many([bundle.part for bundle in bundles], by=by, why="read in from a list")
    for name, why in _WHY.items():
        rows = [row for bundle in bundles for row in getattr(bundle, name)]
        for row in rows:
            row.part_id = row.part.pk
        record_many(rows, by=by, why=why)
    for bundle in bundles:
        bundle.row.part_id = bundle.part.pk
    record_many([bundle.row for bundle in bundles], by=by)
    index_new([bundle.part for bundle in bundles])


_WHY = {
    "moves": "moved",
    "marks": "mark read",
    "measurements": "measured",
    "identifications": "said what it is",
}


def _bundle(
    row: PartReading, whence: Whence, number: Mapping[str, Any], location: Location | None
) -> Bundle:
    part = Part(
        **row.values,
        **number,
        location=location,
        component=row.component,
        # One opinion alone is a proposal; another person has to agree to it.
        identification_status=Part.Standing.PROPOSED
        if row.component
        else Part.Standing.UNIDENTIFIED,
        recorded_at=whence.at,
        recorded_by=whence.by,
    )
    part.quantity = whole_quantity(part.quantity)
    return Bundle(
        part,
        _remembered(row, part, whence),
        moves=_moves(part, whence),
        marks=[PartMark(part=part, text=text) for text in row.marks],
        identifications=_identifications(row, part, whence),
    )


def _remembered(row: PartReading, part: Part, whence: Whence) -> ImportedRow:
    return ImportedRow(
        batch=whence.batch,
        accession=row.accession,
        key=row.key,
        fingerprint=row.fingerprint,
        line_number=row.line_number,
        part=part,
    )


def _moves(part: Part, whence: Whence) -> list[Move]:
    if part.location is None:
        return []
    return [Move(part=part, to_location=part.location, moved_at=whence.at, moved_by=whence.by)]


def _identifications(row: PartReading, part: Part, whence: Whence) -> list[Identification]:
    if row.component is None:
        return []
    reasons = f"As written in the list {whence.batch.name}, line {row.line_number}."
    return [
        Identification(
            part=part,
            component=row.component,
            reasons=reasons,
            made_at=whence.at,
            made_by=whence.by,
        )
    ]


def _measurements(
    row: PartReading, part: Part, whence: Whence, characteristics: Characteristics
) -> list[Measurement]:
    found = []
    for name, length in row.measurements:
        known = characteristics.called(name, row)
        told = reading_fields({"length": length, "at": whence.at}, by=whence.by)
        name = known.name if known else name
        found.append(Measurement(part=part, characteristic=known, name=name, **told))
    return found
