"""All that the provenance sheet of a vehicle says, its sources as numbered notes."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from catalog.models import Fitting, Part, Photo, ProvenanceEvent, Vehicle
from catalog.queries.ages import age_of, class_built_words
from catalog.queries.identities import Identity, identity_of_vehicle
from catalog.queries.noted_stories import NotedStory, cited, noted_story
from catalog.queries.photos import photos_for
from catalog.queries.source_notes import SourceNotes
from catalog.queries.vehicles import Completeness, completeness_of, differences_of

# Beside the main photo; more would make the sheet a book.
PHOTOS = 6


@dataclass(frozen=True, slots=True)
class PartLine:
    """Parts of one component: where they sit, how surely they are that, and what they came with."""

    what: str
    labels: str
    places: str
    certainty: str
    whence: str


@dataclass(frozen=True, slots=True)
class VehiclePaper:
    """The whole sheet."""

    vehicle: Vehicle
    identity: Identity
    completeness: Completeness
    photos: tuple[Photo, ...]
    story: NotedStory
    about: tuple[int, ...]
    built: str
    parts: tuple[PartLine, ...]
    sources: tuple[str, ...]


def vehicle_paper(vehicle: Vehicle, *, for_visitor: bool = False) -> VehiclePaper:
    """Return the sheet of a vehicle; for a visitor only what is published of it."""
    notes = SourceNotes()
    story = noted_story(vehicle, notes, for_visitor=for_visitor)
    built = vehicle.date_text or _built(story)
    fitted, parts = _parts(vehicle, for_visitor=for_visitor)
    return VehiclePaper(
        vehicle=vehicle,
        identity=_identity(vehicle, parts, built, for_visitor=for_visitor),
        completeness=completeness_of([vehicle])[vehicle.pk],
        photos=tuple(photos_for(vehicle, for_visitor=for_visitor)[: PHOTOS + 1]),
        story=story,
        about=notes.numbers(cited(vehicle.citations.all(), for_visitor=for_visitor)),
        built=built or class_built_words(vehicle.vehicle_class, for_visitor=for_visitor),
        parts=_lines(parts, fitted, for_visitor=for_visitor),
        sources=notes.sources,
    )


def _built(story: NotedStory) -> str:
    """Say when it was built, as its story has it."""
    for event in story.provenance.chain.events:
        if event.kind == ProvenanceEvent.Kind.BUILT and event.when:
            return event.when
    return ""


def _identity(
    vehicle: Vehicle, parts: Sequence[Part], built: str, *, for_visitor: bool
) -> Identity:
    differences = [] if for_visitor else differences_of(vehicle)
    return identity_of_vehicle(
        vehicle,
        parts,
        age=age_of(vehicle),
        differences=differences,
        for_visitor=for_visitor,
        built=built,
    )


def _parts(vehicle: Vehicle, *, for_visitor: bool) -> tuple[dict[int, Fitting], list[Part]]:
    """Return what is fitted by the part's key, and these parts with those kept for the vehicle."""
    rows = Part.objects.kept().select_related("component", "accession")
    own = rows.filter(fittings__vehicle=vehicle, fittings__state=Fitting.State.FITTED)
    found = (own | rows.filter(keep_with=vehicle)).distinct().in_numerical_order()
    parts = [part for part in found if part.is_published or not for_visitor]
    fittings = vehicle.fittings.filter(state=Fitting.State.FITTED).select_related("position")
    return {fitting.part_id: fitting for fitting in fittings}, parts


def _lines(
    parts: Iterable[Part], fitted: Mapping[int, Fitting], *, for_visitor: bool
) -> tuple[PartLine, ...]:
    """Put like parts on one line, so that an engine of fifty pieces stays one page."""
    alike: dict[tuple[str, str], list[Part]] = {}
    for part in parts:
        words = "" if for_visitor else part.description
        what = str(part.component or words or "not identified yet")
        alike.setdefault((what, part.get_identification_status_display()), []).append(part)
    return tuple(
        PartLine(
            what=what,
            labels=", ".join(part.label for part in own),
            places=_once(_place(part, fitted) for part in own),
            certainty=certainty,
            whence="" if for_visitor else _once(str(part.accession or "") for part in own),
        )
        for (what, certainty), own in alike.items()
    )


def _place(part: Part, fitted: Mapping[int, Fitting]) -> str:
    return fitted[part.pk].position.code if part.pk in fitted else "kept for it"


def _once(words: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(filter(None, words)))
