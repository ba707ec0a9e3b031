"""What the record already knows of the rows of a list that is read in."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, Self

from catalog.models import Accession, Component, ImportedRow, Location, Part
from catalog.queries.components import spelling
from catalog.reckoning.lengths import Length
from catalog.reckoning.numbers import AccessionNumber


@dataclass(frozen=True, slots=True)
class PartReading:
    """One row of a list, understood: what would be recorded of the part.

    ``values`` are fields of a part. ``key`` is what the row is known by when it comes again,
    ``fingerprint`` is its content.
    """

    line_number: int
    values: Mapping[str, Any] = field(default_factory=dict)
    accession: Accession | None = None
    number: AccessionNumber | None = None
    component: Component | None = None
    location: str = ""
    marks: tuple[str, ...] = ()
    measurements: tuple[tuple[str, Length], ...] = ()
    key: str = ""
    fingerprint: str = ""

    @property
    def tag(self) -> str | None:
        return self.values.get("tag")


@dataclass(frozen=True, slots=True)
class RowDifference:
    """A field in which the row says something else than the record."""

    field: str
    record: str
    row: str


@dataclass(frozen=True, slots=True)
class KnownRow:
    """A row that stands for a ``part`` in the record, with what it says otherwise."""

    part: Part
    differences: tuple[RowDifference, ...] = ()


@dataclass(frozen=True, slots=True)
class LocationNames:
    """Every location by its path and, where that is not ambiguous, by the end of its path."""

    paths: Mapping[tuple[str, ...], Location]
    endings: Mapping[tuple[str, ...], list[Location]]

    @classmethod
    def gather(cls) -> Self:
        rows = {row.pk: row for row in Location.objects.kept()}
        paths = {_names_down_to(row, rows): row for row in rows.values()}
        endings: dict[tuple[str, ...], list[Location]] = {}
        for names, row in paths.items():
            for start in range(1, len(names)):
                endings.setdefault(names[start:], []).append(row)
        return cls(paths, endings)

    def find(self, words: str) -> Location | None:
        names = tuple(map(spelling, location_names(words)))
        ending = self.endings.get(names, [])
        return self.paths.get(names) or (ending[0] if len(ending) == 1 else None)


def location_names(words: str) -> tuple[str, ...]:
    """Return the names from the site down, whichever stroke stands between them.

    >>> location_names("Wagon shop / rack B › shelf 2")
    ('Wagon shop', 'rack B', 'shelf 2')
    """
    strokes = str.maketrans(dict.fromkeys("\\>›»→", "/"))
    names = (" ".join(name.split()) for name in words.translate(strokes).split("/"))
    return tuple(filter(None, names))


def numbers_ever_given(numbers: Iterable[str]) -> set[str]:
    """Return which of ``numbers`` a part has or ever had."""
    wanted = set(numbers)
    now = Part.objects.filter(number__in=wanted).values_list("number", flat=True)
    ever = Part.history.filter(number__in=wanted).values_list("number", flat=True)
    return {str(number) for number in (*now, *ever)}


def known_rows(readings: Iterable[PartReading]) -> dict[int, KnownRow]:
    """Return by line number which ``readings`` stand for parts in the record already.

    A row with the content of an earlier one says nothing new, whatever became of the part
    since; another row of the same number is compared with the part, field by field.
    """
    readings = list(readings)
    rows = _rows_by_key(readings)
    numbered = _parts_by_number(readings)
    found = {}
    for reading in readings:
        row = rows.get((_pk(reading.accession), reading.key))
        if row is not None and row.fingerprint == reading.fingerprint:
            found[reading.line_number] = KnownRow(row.part)
            continue
        part = row.part if row is not None else numbered.get(str(reading.number or ""))
        if part is not None:
            found[reading.line_number] = KnownRow(part, tuple(_differences(reading, part)))
    return found


def _rows_by_key(readings: list[PartReading]) -> dict[tuple[int | None, str], ImportedRow]:
    rows = ImportedRow.objects.filter(key__in={reading.key for reading in readings})
    rows = rows.select_related("part__component", "part__location")
    rows = rows.prefetch_related("part__marks", "part__measurements")
    return {(row.accession_id, row.key): row for row in rows}


def _parts_by_number(readings: list[PartReading]) -> dict[str, Part]:
    numbers = {str(reading.number) for reading in readings if reading.number}
    parts = Part.objects.filter(number__in=numbers).select_related("component", "location")
    return {str(part.number): part for part in parts.prefetch_related("marks", "measurements")}


def _differences(reading: PartReading, part: Part) -> Iterable[RowDifference]:
    for name, row in _said(reading):
        record = _recorded(part, name)
        if spelling(record) != spelling(row):
            yield RowDifference(_label(name), record or "—", row)


def _said(reading: PartReading) -> Iterable[tuple[str, str]]:
    """List what the row says, in words; what it leaves empty says nothing against the record."""
    for name, value in reading.values.items():
        if name not in {"remarks", "capture_id"} and value not in (None, ""):
            yield name, _words(name, value)
    if reading.component:
        yield "component", str(reading.component)
    if reading.location:
        yield "location", reading.location
    if reading.marks:
        yield "marks", "; ".join(reading.marks)
    if reading.measurements:
        told = sorted(f"{name} {length.text}" for name, length in reading.measurements)
        yield "measurements", "; ".join(told)


def _recorded(part: Part, name: str) -> str:
    if name == "marks":
        return "; ".join(mark.text for mark in part.marks.all())
    if name == "measurements":
        rows = part.measurements.all()
        return "; ".join(sorted(f"{row.name} {row.text}" for row in rows if not row.is_withdrawn))
    value = getattr(part, name)
    return "" if value is None else _words(name, value)


def _words(name: str, value: Any) -> str:
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    if name == "usability":
        return Part.Usability(value).label
    return str(value)


def _label(name: str) -> str:
    names = {field.name: str(field.verbose_name) for field in Part._meta.fields}
    return names.get(name, name)


def _names_down_to(row: Location | None, by_key: Mapping[int, Location]) -> tuple[str, ...]:
    names: list[str] = []
    while row is not None:
        names.insert(0, spelling(row.name))
        row = by_key.get(row.parent_id) if row.parent_id else None
    return tuple(names)


def _pk(accession: Accession | None) -> int | None:
    return accession.pk if accession else None
