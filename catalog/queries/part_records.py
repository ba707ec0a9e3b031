"""All that the record of one part shows, gathered in a fixed number of queries."""

from collections.abc import Mapping
from dataclasses import dataclass

from django.db.models import Prefetch, Q

from catalog.models import (
    Citation,
    Fitting,
    Hazard,
    Identification,
    Move,
    Opinion,
    Part,
    PartMark,
    Photo,
)
from catalog.queries.identifications import claims_of, kinds_of
from catalog.queries.measurements import Measured, measured_together
from catalog.reckoning.opinions import Standing, standing


@dataclass(frozen=True, slots=True)
class Belief:
    """One standing identification, whether it leads, and the keys of those who agreed."""

    row: Identification
    leads: bool
    agreed: frozenset[int]
    citations: tuple[Citation, ...]


@dataclass(frozen=True, slots=True)
class Lot:
    """How many pieces stand under the part's number, and how many of them are in use."""

    pieces: int
    used: int

    @property
    def free(self) -> int:
        return self.pieces - self.used


@dataclass(frozen=True, slots=True)
class PartRecord:
    """What is known of one part, ready to be shown."""

    photos: tuple[Photo, ...]
    hazards: tuple[Hazard, ...]
    last_move: Move | None
    beliefs: tuple[Belief, ...]
    former: tuple[Identification, ...]
    marks: tuple[PartMark, ...]
    measured: tuple[Measured, ...]
    lot: Lot
    fittings: tuple[Fitting, ...]
    pieces: tuple[Part, ...]
    contents: tuple[Part, ...]
    citations: tuple[Citation, ...]


def part_record(part: Part) -> PartRecord:
    fittings = tuple(part.fittings.select_related("vehicle", "position__component", "changed_by"))
    identifications = _identifications(part)
    cited = _cited(part, identifications)
    used = sum(fitting.state in Fitting.ACTIVE for fitting in fittings)
    held = _of_this(part)
    readings = part.measurements.kept().select_related(
        "characteristic", "instrument", "measured_by"
    )
    return PartRecord(
        photos=tuple(Photo.objects.in_order().filter(part=part)),
        hazards=hazards_of(part),
        last_move=part.moves.select_related("moved_by").first(),
        beliefs=_beliefs([row for row in identifications if row.superseded_at is None], cited),
        former=tuple(row for row in identifications if row.superseded_at is not None),
        marks=tuple(part.marks.all()),
        measured=measured_together(readings),
        lot=Lot(part.quantity, used),
        fittings=fittings,
        pieces=tuple(one for one in held if one.split_from_id == part.pk),
        contents=tuple(one for one in held if one.inside_id == part.pk),
        citations=tuple(one for one in cited if one.part_id == part.pk),
    )


def _of_this(part: Part) -> list[Part]:
    """Return what was split off the part and what lies inside it, in numerical order."""
    rows = Part.objects.kept().filter(Q(split_from=part) | Q(inside=part))
    # Asked to sort, the database would rather read all parts in order than these few by index.
    found = rows.select_related("component").order_by()
    return sorted(found, key=lambda one: (one.number_sort, one.pk))


def hazards_of(part: Part) -> tuple[Hazard, ...]:
    """Return the hazards of the part and those of its component, the broader kinds' too."""
    kinds = kinds_of([part.component_id])[part.component_id] if part.component_id else ()
    return tuple(Hazard.objects.filter(Q(parts=part.pk) | Q(components__in=kinds)).distinct())


def _identifications(part: Part) -> list[Identification]:
    rows = part.identifications.select_related("component", "vehicle_class", "made_by")
    opinions = Prefetch("opinions", Opinion.objects.select_related("made_by"))
    return list(rows.prefetch_related(opinions))


def _cited(part: Part, identifications: list[Identification]) -> list[Citation]:
    """Return what is cited for the part and for any identification of it, in one query."""
    behind = Q(part=part) | Q(identification__in=[row.pk for row in identifications])
    return list(Citation.objects.filter(behind).select_related("source").order_by("pk"))


def _beliefs(rows: list[Identification], cited: list[Citation]) -> tuple[Belief, ...]:
    found: Standing = standing(claims_of(rows))
    beliefs = [
        Belief(
            row,
            row.pk == found.leading,
            _agreed(row),
            tuple(one for one in cited if one.identification_id == row.pk),
        )
        for row in rows
    ]
    return tuple(sorted(beliefs, key=lambda belief: not belief.leads))


def _agreed(row: Identification) -> frozenset[int]:
    return frozenset(one.made_by_id for one in row.opinions.all() if one.agrees)


def certainty_of(part: Part, record: PartRecord) -> str:
    """Say in few words how sure people are of what the part is."""
    leading = next((belief.row for belief in record.beliefs if belief.leads), None)
    standing_words: Mapping[str, str] = dict(Part.Standing.choices)
    words = standing_words[part.identification_status]
    return f"{words}, {leading.get_confidence_display()}" if leading else words
