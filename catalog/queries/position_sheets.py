"""All that is known of one position of one vehicle: what it asks, what would do, what was tried."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db.models import Q

from catalog.models import Fitting, Hazard, Part, Position, Removal, Trial, Vehicle
from catalog.queries.candidates import Candidate, Place
from catalog.queries.fit_bench import lay_out
from catalog.queries.needs import PositionNeed, needs_on
from catalog.queries.routes import PositionRoutes, routes_on
from catalog.queries.structures import structure
from catalog.reckoning.conformance import Requirement
from catalog.reckoning.plurals import listed

# More candidates than this are not read by anybody; the best come first.
SHOWN = 20
LOOKED_AT = 60
MOST_NAMED = 3


@dataclass(frozen=True, slots=True)
class Excluded:
    """A part of the right component that will not do here, and why."""

    label: str
    url: str
    reason: str


@dataclass(frozen=True, slots=True)
class PositionSheet:
    """One position of one vehicle, with its candidates ranked and those excluded with reasons."""

    need: PositionNeed
    limits: tuple[Requirement, ...]
    candidates: tuple[Candidate, ...]
    excluded: tuple[Excluded, ...]
    trials: tuple[Trial, ...]
    fittings: tuple[Fitting, ...]
    removals: tuple[Removal, ...]
    routes: PositionRoutes | None

    @property
    def cautions(self) -> tuple[Hazard, ...]:
        """Return the hazards of working on any of the routes, each once."""
        routes = self.routes.routes if self.routes else ()
        found = {hazard.pk: hazard for route in routes for hazard in route.hazards}
        return tuple(found.values())


def position_sheet(vehicle: Vehicle, position: Position) -> PositionSheet | None:
    """Return what is known of the position, or nothing when the vehicle has no such position."""
    kinds = structure().kinds[position.component_id]
    bench = lay_out(
        [vehicle],
        at_least=lambda component: LOOKED_AT if component in kinds else 0,
        with_sources=True,
    )
    places = {place.position.pk: place for place in bench.places[vehicle.pk]}
    if position.pk not in places:
        return None
    place = places[position.pk]
    needs = needs_on(bench, [vehicle])[vehicle.pk]
    found = bench.candidates(place) if place.fitting is None else []
    good = tuple(one for one in found if one.state != "misfit")
    here = {"vehicle": vehicle, "position": position}
    return PositionSheet(
        need=next(need for need in needs.needs if need.position.pk == position.pk),
        limits=tuple(limits for _, limits in place.limits),
        candidates=good[:SHOWN],
        excluded=tuple(_excluded(found, place)),
        trials=tuple(
            Trial.objects.kept()
            .filter(**here)
            .select_related("part", "tried_by")
            .prefetch_related("photos")
        ),
        fittings=tuple(Fitting.objects.filter(**here).select_related("part", "changed_by")),
        removals=tuple(Removal.objects.filter(**here).select_related("part", "removed_by")),
        routes=routes_on(bench, needs).of(position),
    )


def _excluded(found: list[Candidate], place: Place) -> Iterable[Excluded]:
    for one in found:
        if one.state == "misfit":
            yield Excluded(one.part.label, one.part.get_absolute_url(), one.reason)
    judged = {one.part.pk for one in found}
    rows = (
        Part.objects.kept()
        .filter(component__in=place.kinds)
        .exclude(pk__in=judged)
        .filter(_not_looked_at(place))
        .select_related("keep_with", "vehicle_class")
        .order_by("number_sort", "pk")[:SHOWN]
    )
    uses = _uses(rows)
    for part in rows:
        reason = _why_not(part, place, uses)
        if reason:
            yield Excluded(part.label, part.get_absolute_url(), reason)


def _not_looked_at(place: Place) -> Q:
    """Choose parts for a reason that can be told, not those that only came too late in order."""
    return (
        Q(usability=Part.Usability.UNUSABLE)
        | Q(keep_with__isnull=False) & ~Q(keep_with=place.vehicle)
        | Q(vehicle_class__isnull=False) & ~Q(vehicle_class__in=place.classes)
        | Q(pk__in=Fitting.objects.active().filter(part__component__in=place.kinds).values("part"))
    )


def _uses(parts: Iterable[Part]) -> Mapping[int, list[Fitting]]:
    uses: dict[int, list[Fitting]] = {}
    rows = Fitting.objects.active().filter(part__in=[part.pk for part in parts])
    for fitting in rows.select_related("vehicle", "position"):
        uses.setdefault(fitting.part_id, []).append(fitting)
    return uses


def _why_not(part: Part, place: Place, uses: Mapping[int, list[Fitting]]) -> str:
    used = uses.get(part.pk, [])
    if len(used) >= part.quantity:
        return f"In use: {listed([_where(fitting) for fitting in used[:MOST_NAMED]])}."
    if part.usability == Part.Usability.UNUSABLE:
        return "Not usable."
    if part.keep_with_id not in (None, place.vehicle.pk):
        return f"Kept for {part.keep_with}."
    if part.vehicle_class_id is not None and part.vehicle_class_id not in place.classes:
        return f"Identified as of {part.vehicle_class}."
    return ""


def _where(fitting: Fitting) -> str:
    return f"{fitting.get_state_display()} at {fitting.position.code} of {fitting.vehicle}"
