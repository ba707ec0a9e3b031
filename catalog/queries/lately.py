"""What changed lately in the whole record: who did what to which thing, newest first."""

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from operator import attrgetter
from typing import Any

from django.db import models
from django.db.models import Q

from catalog.models import (
    Accession,
    Component,
    Fitting,
    Identification,
    Location,
    Measurement,
    Member,
    Move,
    Part,
    PartMark,
    Party,
    Patent,
    Photo,
    ProvenanceEvent,
    Source,
    Vehicle,
    VehicleClass,
)
from catalog.queries.spans import Span

# Whose history is told, and through which links it belongs to something with a page.
_RECORDS = (Accession, Component, Location, Part, Party, Patent, Source, Vehicle, VehicleClass)
_TOLD: Mapping[type[models.Model], tuple[str, ...]] = {
    **dict.fromkeys(_RECORDS, ("id",)),
    **dict.fromkeys((Fitting, Identification, Measurement, PartMark), ("part_id",)),
    **dict.fromkeys((Photo, ProvenanceEvent), ("part_id", "vehicle_id")),
}
_LINKED: Mapping[str, type[models.Model]] = {"part_id": Part, "vehicle_id": Vehicle}
ONE_SITTING = dt.timedelta(minutes=10)
_LOOKED_AT = 40
# What follows in a part from an identification, a fitting or a move is told with those.
_FOLLOWS = (
    Q(history_type="+", split_from=None)
    | Q(history_change_reason__startswith=f"{Move.IN_HISTORY} ")
    | Q(history_change_reason__startswith="fitted at ")
    | Q(history_change_reason="taken off a vehicle")
    | Q(history_change_reason__endswith=": proposed")
    | Q(history_change_reason__endswith=": agreed")
    | Q(history_change_reason__endswith=": disputed")
)


@dataclass(slots=True)
class Happening:
    """What one person did to one thing in one sitting, and whether others had the same."""

    at: dt.datetime
    by: str
    subject: models.Model
    reasons: list[str] = field(default_factory=list)
    others: int = 0

    @property
    def has_others(self) -> bool:
        return self.others > 0

    @property
    def title(self) -> str:
        if isinstance(self.subject, Part):
            what = self.subject.component or self.subject.description
            return f"{self.subject} {what}".strip()
        if isinstance(self.subject, Vehicle):
            return str(self.subject)
        return f"{self.subject._meta.verbose_name} {self.subject}"

    @property
    def words(self) -> str:
        return ", ".join(self.reasons)


@dataclass(frozen=True, slots=True)
class _Entry:
    at: dt.datetime
    by: str
    why: str
    model: type[models.Model]
    key: int


def happenings(most: int = 10) -> list[Happening]:
    """Return the last things that happened, at most ``most``, in a fixed number of queries."""
    rows_of = {model: _newest_first(model) for model in _TOLD}
    return _told_by_sitting(_entries(rows_of, _LOOKED_AT), most)


def written_besides(span: Span, most: int) -> list[Happening]:
    """Return what was written down in ``span``, but for what is told by kinds of its own."""
    rows_of = {
        model: span.of(model.history)  # type: ignore[attr-defined]
        for model in _TOLD
        if model not in (Fitting, Identification)
    }
    rows_of[Part] = rows_of[Part].exclude(_FOLLOWS)
    return _told_by_sitting(_entries(rows_of, most * 4), most)


def _newest_first(model: type[models.Model]) -> models.QuerySet[Any]:
    rows: models.QuerySet[Any] = model.history.order_by("-history_date")  # type: ignore[attr-defined]
    return rows


def _told_by_sitting(entries: Iterable[_Entry], most: int) -> list[Happening]:
    entries = sorted(entries, key=attrgetter("at"), reverse=True)[: most * 10]
    subjects = _subjects(entries)
    found: list[Happening] = []
    for entry in entries:
        subject = subjects.get((entry.model, entry.key))
        if subject is None or (found and _joined(found[-1], entry, subject)):
            continue
        if len(found) == most:
            break
        found.append(Happening(entry.at, entry.by, subject, [entry.why]))
    return found


def _entries(
    rows_of: Mapping[type[models.Model], models.QuerySet[Any]], most: int
) -> Iterable[_Entry]:
    names = {member.pk: str(member) for member in Member.objects.all()}
    for model, rows in rows_of.items():
        links = _TOLD[model]
        told = rows.values_list("history_date", "history_user_id", "history_change_reason", *links)
        for at, by, why, *keys in told[:most]:
            linked = next((pair for pair in zip(links, keys, strict=True) if pair[1]), None)
            if linked is not None:
                link, key = linked
                who = names.get(by, "Somebody")
                yield _Entry(at, who, why or "changed", _LINKED.get(link, model), key)


def _subjects(entries: list[_Entry]) -> dict[tuple[type[models.Model], int], Any]:
    keys: dict[type[models.Model], set[int]] = {model: set() for model in _RECORDS}
    for entry in entries:
        keys[entry.model].add(entry.key)
    found = {}
    for model, wanted in keys.items():
        rows = model._default_manager.filter(pk__in=wanted)
        rows = rows.select_related("component") if model is Part else rows
        found.update({(model, row.pk): row for row in rows})
    return found


def _joined(last: Happening, entry: _Entry, subject: models.Model) -> bool:
    """Tell ``entry`` with the happening before it where it is more of the same."""
    if entry.by != last.by or last.at - entry.at > ONE_SITTING:
        return False
    if subject == last.subject:
        if entry.why not in last.reasons:
            last.reasons.insert(0, entry.why)
        return True
    if type(subject) is type(last.subject) and entry.why in last.reasons:
        last.others += 1
        return True
    return False
