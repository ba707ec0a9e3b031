"""All that the sheet of a part says: what it is and why, its marks, measurements and story."""

from collections.abc import Iterable
from dataclasses import dataclass

from catalog.models import Hazard, Identification, Likeness, Measurement, Part, Photo
from catalog.queries.ages import Age, age_of
from catalog.queries.identities import Identity, identity_of_part
from catalog.queries.noted_stories import NotedStory, cited, noted_story
from catalog.queries.part_records import hazards_of
from catalog.queries.photos import photos_for
from catalog.queries.source_notes import SourceNotes

PHOTOS = 6


@dataclass(frozen=True, slots=True)
class Opinion:
    """One standing identification; visitors are not told whose it is."""

    row: Identification
    who: str
    agreed: int
    disputed: int
    notes: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PartPaper:
    """The whole sheet."""

    part: Part
    identity: Identity
    age: Age
    hazards: tuple[Hazard, ...]
    opinions: tuple[Opinion, ...]
    measurements: tuple[Measurement, ...]
    likenesses: tuple[Likeness, ...]
    photos: tuple[Photo, ...]
    story: NotedStory
    about: tuple[int, ...]
    sources: tuple[str, ...]


def part_paper(part: Part, *, for_visitor: bool = False) -> PartPaper:
    """Return the sheet of a part; for a visitor without donor, location and members' names."""
    notes, age = SourceNotes(), age_of(part)
    readings = part.measurements.kept().select_related("characteristic", "instrument")
    measurements = tuple(readings)
    opinions = tuple(_opinions(part, notes, for_visitor=for_visitor))
    story = noted_story(part, notes, for_visitor=for_visitor)
    return PartPaper(
        part=part,
        identity=identity_of_part(
            part, age=age, measurements=measurements, for_visitor=for_visitor
        ),
        age=age,
        hazards=hazards_of(part),
        opinions=opinions,
        measurements=measurements,
        likenesses=tuple(_likenesses(part, for_visitor=for_visitor)),
        photos=tuple(photos_for(part, for_visitor=for_visitor)[: PHOTOS + 1]),
        story=story,
        about=notes.numbers(cited(part.citations.all(), for_visitor=for_visitor)),
        sources=notes.sources,
    )


def _opinions(part: Part, notes: SourceNotes, *, for_visitor: bool) -> Iterable[Opinion]:
    rows = part.identifications.standing().select_related("component", "vehicle_class", "made_by")
    for row in rows.prefetch_related("opinions", "citations__source"):
        agreeing = [opinion.agrees for opinion in row.opinions.all()]
        yield Opinion(
            row=row,
            who="" if for_visitor else str(row.made_by),
            agreed=agreeing.count(True),
            disputed=agreeing.count(False),
            notes=notes.numbers(cited(row.citations.all(), for_visitor=for_visitor)),
        )


def _likenesses(part: Part, *, for_visitor: bool) -> Iterable[Likeness]:
    rows = part.likenesses.select_related("figure__patent", "figure__picture")
    return rows.filter(figure__patent__is_published=True) if for_visitor else rows
