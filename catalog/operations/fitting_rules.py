"""What keeps a part from going to a position, in words that say who and what."""

from collections import Counter
from datetime import date

from django.core.exceptions import ValidationError
from django.utils import timezone

from catalog.models import Fitting, Part, Position, Vehicle
from catalog.queries.kinds import narrower_kinds
from catalog.queries.positions import positions_of

State = Fitting.State
DONE = {State.RESERVED: "reserved", State.TRIAL: "put on trial", State.FITTED: "fitted"}


def lock(part: Part, vehicle: Vehicle) -> None:
    """Make others who would fit this part, or fill this vehicle, wait; read both afresh.

    On SQLite the transaction itself is the lock, as it begins IMMEDIATE.
    """
    vehicle.refresh_from_db(from_queryset=Vehicle.objects.select_for_update())
    part.refresh_from_db(from_queryset=Part.objects.select_for_update())


def fitting_at(part: Part, vehicle: Vehicle, position: Position) -> Fitting | None:
    """Return the fitting that this part already has there; refuse when another part has one."""
    found = Fitting.objects.active().select_related("part", "changed_by")
    fitting = found.filter(vehicle=vehicle, position=position).first()
    if fitting is not None and fitting.part_id != part.pk:
        raise ValidationError(
            f"{position.code} of {vehicle} already has {fitting.part}, {_by_whom(fitting)}."
        )
    return fitting


def refuse_unless_open(part: Part, vehicle: Vehicle, position: Position) -> None:
    """Refuse a position that the vehicle has not, and what may not go onto a vehicle at all."""
    if vehicle.is_withdrawn:
        raise ValidationError(f"{vehicle} is withdrawn from the catalog.")
    if position.pk not in {own.pk for own in positions_of(vehicle)}:
        raise ValidationError(f"{position.code} is not a position of {vehicle}.")
    if part.is_withdrawn:
        raise ValidationError(f"{part} is withdrawn: {part.withdrawn_reason}.")
    if part.keep_with_id not in (None, vehicle.pk):
        raise ValidationError(
            f"{part} is kept for {part.keep_with}. Change the part's record to release it."
        )


def refuse_unusable(part: Part, position: Position, *, as_state: Fitting.State) -> None:
    """Refuse a part that is not usable, or not yet, for being put to the position."""
    words = {
        Part.Usability.UNUSABLE: "is not usable",
        Part.Usability.PATTERN: "serves as a pattern only",
    }
    if part.usability in words:
        raise ValidationError(f"{part} {words[Part.Usability(part.usability)]}.")
    if as_state == State.RESERVED:
        return
    if part.surviving_share < 1:
        raise ValidationError(
            f"Only part of {part} survives. Record how it was made whole before it goes to "
            f"{position.code}."
        )
    if as_state == State.FITTED and part.usability == Part.Usability.REPAIR:
        wrong = f" ({part.defect})" if part.defect else ""
        raise ValidationError(f"{part} needs repair{wrong}. Record the repair before fitting it.")


def refuse_other_component(part: Part, position: Position, *, as_state: Fitting.State) -> None:
    """Refuse what is identified as something else; an unknown piece may be tried only."""
    if part.component_id is None:
        if as_state != State.TRIAL:
            raise ValidationError(
                f"Nobody has said yet what {part} is. Identify it first: {position.code} takes "
                f"a {position.component}."
            )
        return
    if part.component_id not in narrower_kinds([position.component_id])[position.component_id]:
        raise ValidationError(
            f"{part} is identified as {part.component}, and {position.code} takes "
            f"a {position.component}."
        )


def refuse_used_up(part: Part) -> None:
    """Refuse when every piece of the lot is reserved, on trial or fitted somewhere."""
    used = list(
        Fitting.objects.active()
        .filter(part=part)
        .select_related("vehicle", "position", "changed_by")
    )
    if len(used) < part.quantity:
        return
    if part.quantity == 1:
        place = f"{used[0].position.code} of {used[0].vehicle}"
        raise ValidationError(f"{part} is already at {place}, {_by_whom(used[0])}.")
    counts = Counter(fitting.get_state_display() for fitting in used)
    in_use = ", ".join(f"{count} {words}" for words, count in counts.most_common())
    raise ValidationError(f"All {part.quantity} pieces of this lot are in use: {in_use}.")


def _by_whom(fitting: Fitting) -> str:
    done = DONE[State(fitting.state)]
    return f"{done} by {fitting.changed_by} on {_day(timezone.localtime(fitting.changed_at))}"


def _day(day: date) -> str:
    year = "" if day.year == timezone.localtime().year else f" {day.year}"
    return f"{day.day} {day:%B}{year}"
