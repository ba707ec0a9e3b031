"""All that the record of one part shows, gathered in a fixed number of queries."""

from collections.abc import Mapping
from dataclasses import dataclass

from django.db.models import Prefetch, Q, QuerySet

from catalog.models import (
    Citation,
    Fitting,
    Hazard,
    Identification,
    Measurement,
    Move,
    Opinion,
    Part,
    PartMark,
    Photo,
    Trial,
)
from catalog.models.dates import DATE_FIELDS
from catalog.queries.identifications import claims_of, kinds_of
from catalog.queries.joined import names_of, with_joined
from catalog.queries.measurements import Measured, measured_together
from catalog.queries.trials import trials_of
from catalog.reckoning.opinions import Standing, standing


@dataclass(frozen=True, slots=True)
class Belief:
    """One standing identification, whether it leads, and the keys of those for and against it."""

    row: Identification
    leads: bool
    agreed: frozenset[int]
    disputed: frozenset[int]
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
    trials: tuple[Trial, ...]
    pieces: tuple[Part, ...]
    contents: tuple[Part, ...]
    citations: tuple[Citation, ...]

    @property
    def fitted(self) -> Fitting | None:
        """Where the part, or the first of its lot, is fitted: it is to be found there."""
        on_vehicles = (row for row in self.fittings if row.state == Fitting.State.FITTED)
        return next(on_vehicles, None)


def parts_to_show() -> QuerySet[Part]:
    """Return parts with what their record shows of what they point at."""
    return with_joined(Part.objects.all(), *_JOINED).prefetch_related("marks")


_JOINED = (
    *("component__name", "component__slug", "location__path", "location__name"),
    *("vehicle_class__designation", "vehicle_class__slug"),
    *(f"vehicle_class__{name}" for name in (*DATE_FIELDS, "builder__name", "builder__years")),
    *("accession__year", "accession__serial", "accession__party__name"),
    *("inside__number", "inside__tag", "keep_with__label", "keep_with__slug"),
    *names_of("recorded_by"),
)

_OF_PHOTO = ("part", "caption", "role", "width", "height", "is_published")


def part_record(part: Part) -> PartRecord:
    fittings = _fittings(part)
    identifications = _identifications(part)
    cited = _cited(part, identifications)
    used = sum(fitting.state in Fitting.ACTIVE for fitting in fittings)
    held = _of_this(part)
    return PartRecord(
        photos=tuple(Photo.objects.in_order().filter(part=part).only(*_OF_PHOTO)),
        hazards=hazards_of(part),
        last_move=with_joined(part.moves.all(), *names_of("moved_by")).first(),
        beliefs=_beliefs([row for row in identifications if row.superseded_at is None], cited),
        former=tuple(row for row in identifications if row.superseded_at is not None),
        marks=tuple(part.marks.all()),
        measured=measured_together(_readings(part)),
        lot=Lot(part.quantity, used),
        fittings=fittings,
        trials=trials_of(part),
        pieces=tuple(one for one in held if one.split_from_id == part.pk),
        contents=tuple(one for one in held if one.inside_id == part.pk),
        citations=tuple(one for one in cited if one.part_id == part.pk),
    )


def _fittings(part: Part) -> tuple[Fitting, ...]:
    of_position = ("position__code", "position__component__name")
    shown = ("vehicle__label", "vehicle__slug", *of_position, *names_of("changed_by"))
    return tuple(with_joined(part.fittings.all(), *shown))


def _readings(part: Part) -> QuerySet[Measurement]:
    of_characteristic = ("characteristic__name", "characteristic__where_to_measure")
    shown = (*of_characteristic, "instrument__name", *names_of("measured_by"))
    return with_joined(part.measurements.kept(), *shown)


def _of_this(part: Part) -> list[Part]:
    """Return what was split off the part and what lies inside it, in numerical order."""
    rows = Part.objects.kept().filter(Q(split_from=part) | Q(inside=part))
    # Asked to sort, the database would rather read all parts in order than these few by index.
    found = with_joined(rows, "component__name").order_by()
    return sorted(found, key=lambda one: (one.number_sort, one.pk))


def hazards_of(part: Part) -> tuple[Hazard, ...]:
    """Return the hazards of the part and those of its component, the broader kinds' too."""
    kinds = kinds_of([part.component_id])[part.component_id] if part.component_id else ()
    return tuple(Hazard.objects.filter(Q(parts=part.pk) | Q(components__in=kinds)).distinct())


def _identifications(part: Part) -> list[Identification]:
    of_component = ("component__name", "component__slug")
    of_class = ("vehicle_class__designation", "vehicle_class__slug")
    by = names_of("made_by")
    rows = with_joined(part.identifications.all(), *of_component, *of_class, *by)
    return list(
        rows.prefetch_related(Prefetch("opinions", with_joined(Opinion.objects.all(), *by)))
    )


def _cited(part: Part, identifications: list[Identification]) -> list[Citation]:
    """Return what is cited for the part and for any identification of it, in one query."""
    behind = Q(part=part) | Q(identification__in=[row.pk for row in identifications])
    return list(with_joined(Citation.objects.filter(behind), "source__title").order_by("pk"))


def _beliefs(rows: list[Identification], cited: list[Citation]) -> tuple[Belief, ...]:
    found: Standing = standing(claims_of(rows))
    beliefs = [
        Belief(
            row,
            row.pk == found.leading,
            _who(row, agrees=True),
            _who(row, agrees=False),
            tuple(one for one in cited if one.identification_id == row.pk),
        )
        for row in rows
    ]
    return tuple(sorted(beliefs, key=lambda belief: not belief.leads))


def _who(row: Identification, *, agrees: bool) -> frozenset[int]:
    return frozenset(one.made_by_id for one in row.opinions.all() if one.agrees == agrees)


def certainty_of(part: Part, record: PartRecord) -> str:
    """Say in few words how sure people are of what the part is."""
    leading = next((belief.row for belief in record.beliefs if belief.leads), None)
    standing_words: Mapping[str, str] = dict(Part.Standing.choices)
    words = standing_words[part.identification_status]
    return f"{words}, {leading.get_confidence_display()}" if leading else words
