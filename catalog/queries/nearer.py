"""Which vehicles came nearer to done in a stretch of time, by how many essential positions."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from django.urls import reverse

from catalog.models import Fitting, Vehicle
from catalog.queries.layouts import positions_from
from catalog.queries.spans import Span
from catalog.queries.structures import structure
from catalog.reckoning.completeness import Change, steps
from catalog.reckoning.plurals import counted

State = Fitting.State


@dataclass(frozen=True, slots=True)
class Progress:
    """How many essential positions of a vehicle were filled before and after, and when last."""

    vehicle: Vehicle
    at: dt.datetime
    before: int
    after: int
    essential: int

    @property
    def is_nearer(self) -> bool:
        return self.after > self.before

    @property
    def words(self) -> str:
        """Say it as people would: 2 more essential positions filled, 31 of 40."""
        more = abs(self.after - self.before)
        which = "more" if self.is_nearer else "fewer"
        filled = f"{self.after} of {self.essential}"
        return f"{counted(more, f'{which} essential position')} filled, {filled}"

    def get_absolute_url(self) -> str:
        return reverse("vehicle-needs", args=[self.vehicle.slug])


def progress(span: Span) -> list[Progress]:
    """Return the vehicles on which ``span`` filled more essential positions, or fewer.

    The change counts whoever made it; the span only says whose work calls for telling it.
    """
    touched = span.of(Fitting.history.filter(state__in=(State.FITTED, State.REMOVED)))
    moments = dict(touched.reverse().values_list("vehicle_id", "history_date"))
    if not moments:
        return []
    vehicles = list(Vehicle.objects.kept().filter(pk__in=moments))
    changes = _changes(vehicles, span.end)
    positions = positions_from(structure().recorded, vehicles)
    found = []
    for vehicle in vehicles:
        own = changes.get(vehicle.pk, [])
        essential = {one.pk for one in positions[vehicle.pk] if one.is_essential}
        before = _filled((change for at, change in own if at < span.begin), essential)
        after = _filled((change for _, change in own), essential)
        if before != after:
            at = moments[vehicle.pk]
            found.append(Progress(vehicle, at, before, after, len(essential)))
    return sorted(found, key=lambda one: one.at, reverse=True)


def _changes(
    vehicles: list[Vehicle], end: dt.datetime | None
) -> dict[int, list[tuple[dt.datetime, Change]]]:
    rows = Fitting.history.filter(vehicle__in=[one.pk for one in vehicles])
    rows = rows.exclude(history_type="-").order_by("history_date", "history_id")
    if end is not None:
        rows = rows.filter(history_date__lt=end)
    found: dict[int, list[tuple[dt.datetime, Change]]] = {}
    columns = ("vehicle_id", "history_date", "position_id", "id", "state")
    for vehicle, at, position, fitting, state in rows.values_list(*columns):
        change = Change(at.date(), position, fitting, state == State.FITTED)
        found.setdefault(vehicle, []).append((at, change))
    return found


def _filled(changes: Iterable[Change], places: set[int]) -> int:
    found = steps(changes, places)
    return found[-1].filled if found else 0
