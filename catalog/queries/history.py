"""What was changed in a record, when, by whom and why, newest first."""

import datetime as dt
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.db import models
from django.utils.formats import date_format
from django.utils.timezone import localtime

# What a record carries with it: their changes are shown in the record's own history.
CHILDREN = {
    "Part": (
        *("marks", "measurements", "identifications", "fittings", "trials", "trials_against"),
        "photos",
    ),
    "Vehicle": ("deviations", "own_positions", "fittings", "removals", "events", "photos"),
    "VehicleClass": ("positions", "specifications", "drawings", "deviations"),
    "Component": ("aliases", "characteristics", "known_marks"),
    "Accession": ("stated_lines",),
    "Photo": ("spots",),
    "Source": ("files", "citations"),
}
HIDDEN = {
    "date_joined",
    "withdrawn_by",
    "number_sort",
    "sort_name",
    "lineage",
    "path",
    "slug",
    # Reckoned from what was typed, which is shown as it was typed.
    "date_edtf",
    "date_earliest",
    "date_latest",
    "value_mm",
    "resolution_mm",
    # How a photo's file is kept.
    "original",
    "original_name",
    "sha256",
    "byte_size",
    "capture_id",
    "media_type",
    "width",
    "height",
}
# The division of an instrument is typed; that of a reading is reckoned.
TOLD = {"Instrument": {"resolution_mm"}}
# Finer than anything that is measured here; an uncertainty is stored with more.
_DECIMALS = 4


@dataclass(frozen=True, slots=True)
class Difference:
    """One field that a change touched, in words before and after."""

    field: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Entry:
    """One change: the version it made, and whether the record can be put back to it."""

    version: int
    at: dt.datetime
    by: str
    why: str
    subject: str
    differences: tuple[Difference, ...]
    is_own: bool
    is_newest: bool


def history_of(record: models.Model) -> list[Entry]:
    """Return the changes of ``record`` and of what it carries, newest first."""
    entries = _entries(list(record.history.select_related("history_user")), is_own=True)  # type: ignore[attr-defined]
    for name in CHILDREN.get(type(record).__name__, ()):
        entries += _children_entries(getattr(record, name))
    return sorted(entries, key=lambda entry: (entry.at, entry.version), reverse=True)


def _children_entries(manager: Any) -> list[Entry]:
    field = manager.field.attname
    rows = manager.model.history.filter(**{field: manager.instance.pk})
    by_child: dict[int, list[Any]] = {}
    for row in rows.select_related("history_user"):
        by_child.setdefault(row.id, []).append(row)
    parent = manager.field.name
    return [entry for own in by_child.values() for entry in _entries(own, is_own=False, but=parent)]


def _entries(rows: list[Any], *, is_own: bool, but: str = "") -> list[Entry]:
    rows = sorted(rows, key=lambda row: row.history_id, reverse=True)
    # What came with the catalog has no history until somebody changes it.
    former = [*rows[1:], None][: len(rows)]
    return [
        Entry(
            version=row.history_id,
            at=row.history_date,
            by=str(row.history_user or ""),
            why=row.history_change_reason or "changed",
            subject="" if is_own else f"{row.instance_type._meta.verbose_name}",
            differences=_differences(row, before, but=but),
            is_own=is_own,
            is_newest=row is rows[0],
        )
        for row, before in zip(rows, former, strict=True)
    ]


def _differences(row: Any, before: Any, *, but: str) -> tuple[Difference, ...]:
    found = []
    hidden = HIDDEN - TOLD.get(row.instance_type.__name__, set()) | {but}
    for field in row.tracked_fields:
        if field.name in hidden or field.primary_key:
            continue
        old = getattr(before, field.attname) if before else None
        new = getattr(row, field.attname)
        if old != new and not (before is None and new in (None, "", False)):
            found.append(
                Difference(str(field.verbose_name), _words(field, old), _words(field, new))
            )
    return tuple(found)


def _words(field: Any, value: Any) -> str:
    if value is None or value == "":
        return ""
    if field.is_relation:
        found = field.remote_field.model._default_manager.filter(pk=value).first()
        return str(found) if found else f"no longer there ({value})"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dt.datetime):
        return date_format(localtime(value), "j F Y, H:i")
    if isinstance(value, dt.date):
        return date_format(value, "j F Y")
    if isinstance(value, Decimal):
        return f"{round(value, _DECIMALS).normalize():f}"
    return str(dict(field.flatchoices).get(value, value))
