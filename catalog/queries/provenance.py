"""Where a vehicle or part came from: its statements, owners and keepers, gaps and doubts."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from django.utils import timezone

from catalog.models import Part, ProvenanceEvent, Removal, Vehicle
from catalog.queries.event_facts import EventFact, bounds_of, event_facts
from catalog.queries.party_names import PartyNames, named_for_members, named_for_visitors
from catalog.reckoning.chains import Chain, Gap, chain
from catalog.reckoning.edtf_dates import ABOUT_YEARS, is_about, parse_date
from catalog.reckoning.event_words import event_phrase
from catalog.reckoning.periods import ProvenanceEvent as ReckonedEvent
from catalog.reckoning.provenance_texts import provenance_entries

Kind = ProvenanceEvent.Kind
THE_GROUP = "the group"
UNPUBLISHED = "a source that is not published"


@dataclass(frozen=True, slots=True)
class Told:
    """One statement as a page shows it; only members have it open to them, to change it."""

    key: str
    title: str
    when: str
    place: str
    words: str
    certainty: str
    sources: tuple[str, ...]
    is_inherited: bool
    preference: str
    is_open: bool


@dataclass(frozen=True, slots=True)
class LineEntry:
    """One owner of the provenance line, with the mark that follows and its notes' numbers."""

    words: str
    mark: str
    notes: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class GapTold:
    """A gap in words, and what would close it."""

    words: str
    closing: str


@dataclass(frozen=True, slots=True)
class Disagreement:
    """Two accounts of one passage side by side, and which is preferred for what reason."""

    first: Told
    second: Told


@dataclass(frozen=True, slots=True)
class Clashing:
    """One of the statements that cannot all be true, and the events that it speaks of."""

    words: str
    events: tuple[Told, ...]

    @property
    def event(self) -> Told | None:
        """Return the event where it speaks of one alone."""
        return self.events[0] if len(self.events) == 1 else None


@dataclass(frozen=True, slots=True)
class Provenance:
    """All that is said of where a vehicle or part came from."""

    told: tuple[Told, ...]
    entries: tuple[LineEntry, ...]
    notes: tuple[str, ...]
    gaps: tuple[GapTold, ...]
    overlaps: tuple[str, ...]
    contradictions: tuple[tuple[Clashing, ...], ...]
    disagreements: tuple[Disagreement, ...]
    chain: Chain

    @property
    def unsourced(self) -> tuple[Told, ...]:
        """Return the statements behind which no source stands."""
        return tuple(one for one in self.told if not one.sources)


def provenance_of(
    record: Vehicle | Part,
    *,
    for_visitor: bool = False,
    events: tuple[EventFact, ...] | None = None,
) -> Provenance:
    """Return the provenance of a vehicle, or of a part with the story of what it came off.

    For a visitor, parties and sources that are not public are told without their names.
    ``events`` are the record's own, where they are at hand.
    """
    own = event_facts(record) if events is None else events
    is_part = isinstance(record, Part)
    inherited = _inherited_events(record) if isinstance(record, Part) else ()
    today = timezone.localdate()
    return _provenance(own + inherited, today, for_visitor=for_visitor, is_part=is_part)


@lru_cache(maxsize=64)
def _provenance(
    facts: tuple[EventFact, ...], today: dt.date, *, for_visitor: bool, is_part: bool
) -> Provenance:
    """Work out what follows from equal events once; pages ask for it more than it changes."""
    events = _in_order(facts)
    names = named_for_visitors(events) if for_visitor else named_for_members(events)
    told = {str(event.pk): _told(event, names, is_part=is_part) for event in events}
    reckoned = chain(_reckoned(event, told[str(event.pk)], names, today) for event in events)
    entries = provenance_entries(reckoned)
    notes = tuple(dict.fromkeys(source for entry in entries for source in entry.sources))
    return Provenance(
        told=tuple(told.values()),
        entries=tuple(
            LineEntry(one.words, one.mark, tuple(notes.index(note) + 1 for note in one.sources))
            for one in entries
        ),
        notes=notes,
        gaps=tuple(_gap_told(gap) for gap in reckoned.gaps),
        overlaps=tuple(overlap.in_words() for overlap in reckoned.overlaps),
        contradictions=tuple(
            tuple(
                Clashing(str(statement), tuple(told[key] for key in statement.keys))
                for statement in one.statements
            )
            for one in reckoned.contradictions
        ),
        disagreements=tuple(
            Disagreement(told[account.first.key], told[account.second.key])
            for account in reckoned.accounts
        ),
        chain=reckoned,
    )


def _inherited_events(part: Part) -> tuple[EventFact, ...]:
    """Return what happened to the vehicle that a part first came off, while it was on it."""
    removals = list(part.removals.select_related("vehicle").order_by("removed_at", "pk"))
    if not removals:
        return ()
    vehicle = removals[0].vehicle
    times_on = _times_on(one for one in removals if one.vehicle_id == vehicle.pk)
    return tuple(
        event
        for event in event_facts(vehicle)
        if any(
            (event.date_earliest or dt.date.min) <= off
            and (event.date_latest or dt.date.max) >= back
            for back, off in times_on
        )
    )


def _times_on(removals: Iterable[Removal]) -> list[tuple[dt.date, dt.date]]:
    """Return from when until when a part was on: before it came off, and after it went back."""
    times, back = [], dt.date.min
    for removal in removals:
        times.append((back, removal.removed_at.date()))
        if removal.put_back_at is None:
            return times
        back = removal.put_back_at.date()
    return [*times, (back, dt.date.max)]


def _in_order(events: Iterable[EventFact]) -> list[EventFact]:
    """Order statements by time; those with a place in the chain keep it among themselves."""
    ordered = sorted(events, key=_first_day)
    placed = sorted(
        (event for event in ordered if event.sequence is not None),
        key=lambda one: one.sequence or 0,
    )
    wanted = iter(placed)
    return [event if event.sequence is None else next(wanted) for event in ordered]


def _first_day(event: EventFact) -> tuple[dt.date, bool, int]:
    is_first = event.kind == Kind.BUILT
    unknown = dt.date.min if is_first else dt.date.max
    return (event.date_earliest or event.date_latest or unknown, not is_first, event.pk)


def _told(event: EventFact, names: PartyNames, *, is_part: bool) -> Told:
    is_open = not names.for_visitor
    return Told(
        key=str(event.pk),
        title=_title(event, names),
        when=_in_words(event.date_edtf),
        place=event.place if is_open or names.all_public(event) else "",
        words=event.words if is_open else "",
        certainty=event.certainty,
        sources=_sources(event, for_visitor=names.for_visitor),
        is_inherited=is_part and event.part_id is None,
        preference=event.preference_reason if is_open and event.is_preferred else "",
        is_open=is_open,
    )


@lru_cache(maxsize=10_000)
def _in_words(edtf: str) -> str:
    """Say a date of the record; the same dates are asked for on every page of a vehicle."""
    return parse_date(edtf).in_words() if edtf else ""


def _title(event: EventFact, names: PartyNames) -> str:
    return event_phrase(
        event.kind,
        giver=names[event.from_party] if event.from_party else "",
        taker=names[event.to_party] if event.to_party else "",
        keeper=names[event.keeper] if event.keeper else "",
    )


def _sources(event: EventFact, *, for_visitor: bool) -> tuple[str, ...]:
    told = (
        one.words if one.is_published or not for_visitor else UNPUBLISHED for one in event.sources
    )
    return tuple(dict.fromkeys(told))


def _reckoned(event: EventFact, told: Told, names: PartyNames, today: dt.date) -> ReckonedEvent:
    taker = names[event.to_party] if event.to_party else ""
    if event.kind == Kind.ACQUIRED and not taker:
        taker = THE_GROUP
    earliest, latest = bounds_of(event)
    if earliest and not latest and earliest <= today:
        # What is on record has happened, so “after 2010” has an end.
        latest = today
    about = f"give or take {ABOUT_YEARS} years" if is_about(event.date_edtf) else ""
    return ReckonedEvent(
        key=told.key,
        earliest=earliest,
        latest=latest,
        label=", ".join(filter(None, (told.title, told.when, about))),
        source="; ".join(told.sources),
        kind=event.kind,
        from_party=names[event.from_party] if event.from_party else "",
        to_party=taker,
        keeper=names[event.keeper] if event.keeper else "",
        certainty=event.certainty,
        when=told.when,
        is_preferred=event.is_preferred,
    )


def _gap_told(gap: Gap) -> GapTold:
    return GapTold(gap.in_words(), gap.what_would_close_it())
