"""What is known of a piece that speaks for or against what it may be."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Q

from catalog.models import Part, Removal
from catalog.queries.identity_hypotheses import Kinds
from catalog.queries.identity_marks import marks_of
from catalog.queries.measurements import Measured, measured_together
from catalog.queries.positions import class_lineages
from catalog.reckoning.identity import (
    AbsentEvidence,
    Evidence,
    FactorEvidence,
    MeasuredEvidence,
    same_lot,
)

# How much likelier the component of a position is for what was taken off there, and another
# component of the same class: judgments, common practice without a source.
OFF_POSITION_FACTOR = 200.0
OFF_VEHICLE_FACTOR = 20.0


@dataclass(frozen=True, slots=True)
class Known:
    """The evidence, what it could not say, and the readings it rests on."""

    evidence: tuple[Evidence, ...]
    remarks: tuple[str, ...]
    readings: tuple[Measured, ...]
    absent: tuple[str, ...] = ()


def evidence_of(part: Part, kinds: Kinds, *, without: Iterable[str] = ()) -> Known:
    """Gather the measurements, marks and circumstances of ``part``.

    ``without`` names what was looked for on it and is not there, however it is spelled.
    """
    groups = _groups(part, kinds)
    marks = marks_of(part, kinds)
    doubts = [
        f"{group.name}: {group.together.sentence}"
        for group in groups
        if not group.together.is_consistent
    ]
    measured = [
        MeasuredEvidence(kinds.common_name(group.name), group.together.combined) for group in groups
    ]
    measured_at = {one.characteristic for one in measured}
    absent = [
        AbsentEvidence(name)
        for name in dict.fromkeys(map(kinds.common_name, without))
        if name in kinds.names.values() and name not in measured_at
    ]
    circumstances = [*_came_off(part, kinds), *_same_lot(part, kinds)]
    return Known(
        (*measured, *absent, *marks.evidence, *circumstances),
        (*doubts, *marks.remarks),
        tuple(groups),
        tuple(one.characteristic for one in absent),
    )


def _groups(part: Part, kinds: Kinds) -> list[Measured]:
    """Return the readings, repeats of one characteristic together however its name is spelled."""
    readings = list(
        part.measurements.kept().select_related("characteristic", "instrument", "measured_by")
    )
    for reading in readings:
        reading.name = kinds.common_name(reading.name)
    return list(measured_together(readings))


def _came_off(part: Part, kinds: Kinds) -> Iterable[FactorEvidence]:
    rows = Removal.objects.filter(part=part).select_related("vehicle", "position__component")
    removals = list(rows[:3])
    lineages = class_lineages(row.vehicle for row in removals)
    for row in removals:
        classes = set(lineages[row.vehicle.vehicle_class_id])
        factors = {}
        for key, kind in kinds.by_key.items():
            if kind.component.pk == row.position.component_id:
                factors[key] = OFF_POSITION_FACTOR
            elif kind.vehicle_class and kind.vehicle_class.pk in classes:
                factors[key] = OFF_VEHICLE_FACTOR
        if factors:
            yield FactorEvidence(f"came off {row.position} of {row.vehicle}", factors)


def _same_lot(part: Part, kinds: Kinds) -> Iterable[FactorEvidence]:
    if part.accession_id is None:
        return
    others = Part.objects.kept().filter(
        Q(identification_status=Part.Standing.AGREED), accession=part.accession_id
    )
    classes = others.exclude(pk=part.pk).filter(vehicle_class__isnull=False)
    found = {str(key) for key in classes.order_by().values_list("vehicle_class", flat=True)}
    told = same_lot(f"accession {part.accession}", found, kinds.hypotheses)
    if told.factors:
        yield told
