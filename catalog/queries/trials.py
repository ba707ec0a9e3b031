"""What was tried with a part, and what a trial changed besides."""

from django.db.models import Q

from catalog.models import Fitting, Part, Trial
from catalog.queries.joined import names_of, with_joined

_SHOWN = (
    *("part__number", "part__tag", "other_part__number", "other_part__tag"),
    *("vehicle__label", "vehicle__slug", "position__code", "position__component__name"),
    *names_of("tried_by"),
)


def trials_of(part: Part) -> tuple[Trial, ...]:
    """Return the trials of the part, and those of others against it, newest first."""
    rows = Trial.objects.kept().filter(Q(part=part) | Q(other_part=part))
    return tuple(with_joined(rows, *_SHOWN))


def gave_up(trial: Trial) -> str:
    """Name the position that the part lost because of this trial, or nothing."""
    if trial.position is None or trial.outcome != Trial.Outcome.DID_NOT_GO:
        return ""
    # The two are written at one moment, which tells this trial from others at the same place.
    lost = Fitting.objects.filter(
        part=trial.part_id,
        vehicle=trial.vehicle_id,
        position=trial.position_id,
        state=Fitting.State.REJECTED,
        changed_at=trial.tried_at,
    )
    return f"{trial.position.code} of {trial.vehicle}" if lost.exists() else ""


def what_stays(trial: Trial) -> str:
    """Say what taking the trial back leaves as it is, or nothing where it changed nothing else."""
    where = gave_up(trial)
    if not where:
        return ""
    return (
        f"{where} stays as it is now: {trial.part} gave it up when the trial was recorded, "
        "and is not put back there."
    )
