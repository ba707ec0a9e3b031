"""What a trial changed besides, and what stays when it is taken back."""

from catalog.models import Fitting, Trial


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
