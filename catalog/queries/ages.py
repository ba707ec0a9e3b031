"""When a vehicle or part was made: all that speaks for its age, and what contradicts."""

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from catalog.models import Part, ProvenanceEvent, Vehicle, VehicleClass
from catalog.models.dates import VagueDateRecord
from catalog.queries.event_facts import EventFact, bounds_of, event_facts
from catalog.queries.marks_read import MarkRead, marks_read
from catalog.reckoning.ages import AgeEvidence, MadeBetween, made_between
from catalog.reckoning.edtf_dates import DateError, VagueDate, parse_date

Kind = ProvenanceEvent.Kind


@dataclass(frozen=True, slots=True)
class Age:
    """The evidence piece by piece, and between which days all of it allows."""

    evidence: tuple[AgeEvidence, ...]
    made: MadeBetween


def age_of(record: Vehicle | Part, *, events: Iterable[EventFact] | None = None) -> Age:
    """Return what speaks for the age of a vehicle or a part; ``events`` are its own, if at hand.

    A part may have been made as a spare long after the vehicles of its class, so class and
    builder only tell how old it can be at most.
    """
    own = event_facts(record) if events is None else events
    found = _of_vehicle(record, own) if isinstance(record, Vehicle) else _of_part(record, own)
    evidence = tuple(one for one in found if one.not_before or one.not_after)
    return Age(evidence, made_between(evidence))


def built_words(
    vehicle: Vehicle, *, events: Iterable[EventFact] | None = None, for_visitor: bool = False
) -> str:
    """Say when a vehicle was built: by its record, else by its story, else by its class."""
    if vehicle.date_text:
        return vehicle.date_text
    told = _built_in_story(event_facts(vehicle) if events is None else events)
    return told or class_built_words(vehicle.vehicle_class, for_visitor=for_visitor)


def class_built_words(built_to: VehicleClass, *, for_visitor: bool = False) -> str:
    """Say when vehicles of a class were built, marked as no more than that."""
    is_told = built_to.date_text and (built_to.is_published or not for_visitor)
    return f"{built_to.date_text} (as its class)" if is_told else ""


def _built_in_story(events: Iterable[EventFact]) -> str:
    """Return the date of the event that tells of its building, with any doubt about it."""
    dated = [event for event in events if event.kind == Kind.BUILT and event.date_text]
    if not dated:
        return ""
    event = max(dated, key=lambda one: one.is_preferred)
    is_sure = event.certainty == ProvenanceEvent.Certainty.DOCUMENTED
    return event.date_text if is_sure else f"{event.date_text} ({event.certainty})"


def _of_vehicle(vehicle: Vehicle, events: Iterable[EventFact]) -> Iterator[AgeEvidence]:
    yield from _dated("the date in the record", vehicle)
    yield from _of_events(events)
    yield from _of_class(vehicle.vehicle_class)


def _of_part(part: Part, events: Iterable[EventFact]) -> Iterator[AgeEvidence]:
    yield from (_of_mark(read) for read in marks_read(part))
    yield from _of_events(events)
    if part.vehicle_class:
        for one in _of_class(part.vehicle_class):
            label = f"if it was made for {part.vehicle_class}: {one.label}"
            yield AgeEvidence(label, not_before=one.not_before)


def _of_mark(read: MarkRead) -> AgeEvidence:
    patents = ", ".join(str(patent) for patent in read.agreeing)
    agreeing = f", which agrees with {patents}" if patents else ""
    label = f"patent marking “{read.mark.text}”{agreeing}"
    return AgeEvidence(label, not_before=read.marking.not_before)


def _of_events(events: Iterable[EventFact]) -> Iterator[AgeEvidence]:
    """Yield when it was built, and by when it surely was there, whatever happened to it then."""
    told = list(events)
    for event in told:
        if event.kind == Kind.BUILT:
            yield AgeEvidence(str(event), *bounds_of(event), _sources(event))
    latest = {event: bounds_of(event)[1] for event in told if event.kind != Kind.BUILT}
    later = [event for event, day in latest.items() if day]
    if later:
        first = min(later, key=lambda event: latest[event] or dt.date.max)
        yield AgeEvidence(f"{first}", not_after=latest[first], source=_sources(first))


def _of_class(built_to: VehicleClass) -> Iterator[AgeEvidence]:
    yield from _dated(f"vehicles of {built_to} were built then", built_to)
    builder = built_to.builder
    years = _read(builder.years) if builder else None
    if builder and years:
        label = f"{builder} lived or traded then ({builder.years})"
        yield AgeEvidence(label, years.earliest, years.latest)


def _read(words: str) -> VagueDate | None:
    """Read the years of a party where they are a date; free words say nothing of bounds."""
    # The years of people and firms are written with a dash: 1871–1926 means all of them.
    begin, dash, end = words.replace("-", "–").partition("–")
    span = f"from {begin.strip()} to {end.strip()}" if dash and end.strip() else words
    try:
        return parse_date(span) if span else None
    except DateError:
        return None


def _dated(label: str, record: VagueDateRecord) -> Iterator[AgeEvidence]:
    yield AgeEvidence(label, *bounds_of(record))


def _sources(event: EventFact) -> str:
    return "; ".join(source.words for source in event.sources)
