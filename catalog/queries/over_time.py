"""How complete each vehicle was over time, from the history of what was fitted and taken off."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from django.utils import timezone

from catalog.models import Fitting, Vehicle
from catalog.queries.positions import positions_of_vehicles
from catalog.reckoning.completeness import Change, Step, steps

# The drawing is laid out in these units, and stretched to its place by the browser.
WIDTH, HEIGHT = 600, 100


@dataclass(frozen=True, slots=True)
class Course:
    """One vehicle over time: its steps, and the line that draws them."""

    vehicle: Vehicle
    essential: int
    steps: tuple[Step, ...]
    line: str
    area: str

    @property
    def filled(self) -> int:
        return self.steps[-1].filled if self.steps else 0

    @property
    def words(self) -> str:
        """Say in one sentence what the drawing shows."""
        if not self.steps:
            return f"Nothing was fitted yet; {self.essential} essential positions"
        first = self.steps[0]
        return (
            f"From {first.filled} on {first.on:%-d %B %Y} to {self.filled} "
            f"of {self.essential} essential positions"
        )


@dataclass(frozen=True, slots=True)
class OverTime:
    """The vehicles over the same stretch of time, from the first fitting to today."""

    courses: tuple[Course, ...]
    begin: dt.date
    end: dt.date


def over_time(vehicles: Iterable[Vehicle], *, at: dt.datetime | None = None) -> OverTime:
    """Return how many essential positions were filled when, in so many queries however many.

    The positions are those of today: what was once thought to belong there is not counted.
    """
    vehicles = list(vehicles)
    today = timezone.localtime(at).date()
    essential = {
        key: {position.pk for position in own if position.is_essential}
        for key, own in positions_of_vehicles(vehicles).items()
    }
    changes = _changes(vehicles)
    found = {v.pk: steps(changes.get(v.pk, ()), essential[v.pk]) for v in vehicles}
    begin = min((own[0].on for own in found.values() if own), default=today)
    return OverTime(
        tuple(_course(v, len(essential[v.pk]), found[v.pk], begin, today) for v in vehicles),
        begin,
        today,
    )


def _changes(vehicles: list[Vehicle]) -> dict[int, list[Change]]:
    rows = Fitting.history.filter(vehicle__in=[v.pk for v in vehicles]).exclude(history_type="-")
    columns = ("vehicle_id", "changed_at", "position_id", "id", "state")
    found: dict[int, list[Change]] = {}
    for vehicle, moment, *rest in rows.order_by("changed_at", "history_id").values_list(*columns):
        position, fitting, state = rest
        on = timezone.localtime(moment).date()
        change = Change(on, position, fitting, state == Fitting.State.FITTED)
        found.setdefault(vehicle, []).append(change)
    return found


def _course(
    vehicle: Vehicle, essential: int, own: tuple[Step, ...], begin: dt.date, end: dt.date
) -> Course:
    days = max(1, (end - begin).days)

    def across(day: dt.date) -> str:
        return f"{WIDTH * (day - begin).days / days:.1f}"

    def down(filled: int) -> str:
        return f"{HEIGHT * (1 - filled / max(1, essential)):.1f}"

    line = f"M0 {HEIGHT}" + "".join(f"H{across(one.on)}V{down(one.filled)}" for one in own)
    line += f"H{WIDTH}"
    return Course(vehicle, essential, own, line, f"{line}V{HEIGHT}Z")
