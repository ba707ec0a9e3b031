"""What a plan came to, turned into the plain words and keys that are kept with it."""

from dataclasses import asdict, replace
from typing import Any

from catalog.queries.candidates import Candidate
from catalog.queries.plan_outcomes import (
    LevelLine,
    MakeLine,
    OpenLine,
    Outcome,
    UseLine,
    VehicleOutcome,
)
from catalog.queries.plans import BestUsePlan, PlannedMaking, PlannedRepair, VehiclePlan
from catalog.reckoning.assignment import Level


def as_record(best: BestUsePlan) -> dict[str, Any]:
    """Return the outcome as it is kept with the plan."""
    levels = (_level(one) for one in best.levels)
    vehicles = tuple(_vehicle(one) for one in best.vehicles)
    return asdict(Outcome(best.sentence, best.is_proven, tuple(levels), vehicles))


def _level(one: Level) -> LevelLine:
    is_weighed = one.vehicles is not None
    return LevelLine(one.name, one.sentence(), one.is_proven, is_weighed=is_weighed)


def _vehicle(one: VehiclePlan) -> VehicleOutcome:
    return VehicleOutcome(
        vehicle=one.vehicle.pk,
        slug=one.vehicle.slug,
        label=str(one.vehicle),
        is_complete=one.is_complete,
        sentence=one.sentence,
        uses=tuple(
            UseLine(
                use.position.pk,
                use.position.code,
                str(use.position.component),
                use.candidate.part.pk,
                use.candidate.part.label,
                _reason(use.candidate),
                use.effort if isinstance(use, PlannedRepair) else None,
            )
            for use in one.uses
        ),
        makes=tuple(_make(made) for made in one.makes),
        open=tuple(
            OpenLine(
                left.position.pk,
                left.position.code,
                str(left.position.component),
                left.position.is_essential,
                left.words + (f": {left.route.part.label}" if left.route else ""),
            )
            for left in one.open
        ),
    )


def _make(made: PlannedMaking) -> MakeLine:
    making = made.making
    line = MakeLine(
        made.position.pk,
        made.position.code,
        str(made.position.component),
        making.words,
        making.effort,
        note=making.note,
        terms=making.terms,
        is_on_loan=making.is_on_loan,
        is_limited=making.most is not None,
    )
    if making.pattern is None:
        return line
    return replace(line, part=making.pattern.pk, label=making.pattern.label)


def _reason(candidate: Candidate) -> str:
    if candidate.state != "repair":
        return candidate.reason
    defect = f" ({candidate.part.defect})" if candidate.part.defect else ""
    return f"Repair it first{defect}. {candidate.reason}"
