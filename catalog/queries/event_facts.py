"""The events of a vehicle or part as plain values, which can be compared and remembered.

Provenance is asked for by every page of a vehicle and seldom changes: reading its events takes
three quick queries, and what follows from equal events is worked out once.
"""

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from catalog.models import Citation, Part, Party, ProvenanceEvent, Vehicle
from catalog.models.dates import VagueDateRecord
from catalog.reckoning.edtf_dates import is_about, reasoned_bounds

Kind = ProvenanceEvent.Kind
KIND_WORDS = dict(Kind.choices)
COLUMNS = (
    *("pk", "kind", "date_text", "date_edtf", "date_earliest", "date_latest", "place", "words"),
    *("certainty", "is_preferred", "preference_reason", "sequence", "part_id"),
)
PARTIES = ("from_party_id", "to_party_id", "keeper_id")


@dataclass(frozen=True, slots=True)
class PartyFact:
    """A party as events name it."""

    pk: int
    name: str
    is_person: bool
    is_name_public: bool


@dataclass(frozen=True, slots=True)
class SourceFact:
    """A source behind an event, with the place in it, and whether visitors may know of it."""

    words: str
    is_published: bool


@dataclass(frozen=True, slots=True)
class EventFact:
    """One event with its parties and the sources behind it, withdrawn ones left out."""

    pk: int
    kind: str
    date_text: str
    date_edtf: str
    date_earliest: dt.date | None
    date_latest: dt.date | None
    place: str
    words: str
    certainty: str
    is_preferred: bool
    preference_reason: str
    sequence: int | None
    part_id: int | None
    from_party: PartyFact | None
    to_party: PartyFact | None
    keeper: PartyFact | None
    sources: tuple[SourceFact, ...]

    def __str__(self) -> str:
        return f"{self.kind_words} {self.date_text}".strip()

    @property
    def kind_words(self) -> str:
        return str(KIND_WORDS[Kind(self.kind)])

    @property
    def parties(self) -> tuple[PartyFact, ...]:
        return tuple(one for one in (self.from_party, self.to_party, self.keeper) if one)


def bounds_of(told: EventFact | VagueDateRecord) -> tuple[dt.date | None, dt.date | None]:
    """Return the days within which it was, for holding it against other dates."""
    if is_about(told.date_edtf):
        return reasoned_bounds(told.date_edtf)
    return told.date_earliest, told.date_latest


def event_facts(record: Vehicle | Part) -> tuple[EventFact, ...]:
    """Return the events of a record in the order of its chain."""
    rows = list(record.events.kept().in_chain().values_list(*COLUMNS, *PARTIES))
    if not rows:
        return ()
    parties = _parties({key for row in rows for key in row[len(COLUMNS) :] if key})
    sources = _sources(row[0] for row in rows)
    return tuple(_fact(row, parties, sources.get(row[0], [])) for row in rows)


def _fact(
    row: tuple[Any, ...], parties: Mapping[int | None, PartyFact], sources: Iterable[SourceFact]
) -> EventFact:
    named = [parties.get(key) for key in row[len(COLUMNS) :]]
    values: list[Any] = [*row[: len(COLUMNS)], *named, tuple(sources)]
    return EventFact(*values)


def _parties(keys: Iterable[int]) -> dict[int | None, PartyFact]:
    rows = Party.objects.filter(pk__in=list(keys))
    found = rows.values_list("pk", "name", "kind", "is_name_public")
    return {
        pk: PartyFact(pk, name, kind == Party.Kind.PERSON, is_public)
        for pk, name, kind, is_public in found
    }


def _sources(keys: Iterable[Any]) -> dict[int | None, list[SourceFact]]:
    rows = Citation.objects.filter(event__in=list(keys), source__withdrawn_at__isnull=True)
    found = rows.order_by("pk").values_list(
        "event_id", "source__title", "locator", "source__is_published"
    )
    told: dict[int | None, list[SourceFact]] = {}
    for event, title, locator, is_published in found:
        words = f"{title}, {locator}" if locator else title
        told.setdefault(event, []).append(SourceFact(words, is_published))
    return told
