"""For each unfilled position the routes to filling it, the best first and in words."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from enum import StrEnum

from catalog.models import Hazard, Position, Vehicle, Want
from catalog.queries.asked_for import NOTHING_ASKED, AskedFor, asking_address, shared_out
from catalog.queries.candidates import Candidate, Place
from catalog.queries.fit_bench import Bench, lay_out
from catalog.queries.lesser_uses import LesserUses, lesser_uses
from catalog.queries.needs import PositionNeed, VehicleNeeds, needs_on
from catalog.queries.route_facts import RouteFacts, facts_for_routes
from catalog.queries.supply import InHand
from catalog.reckoning.casting_notes import allowance_note
from catalog.reckoning.plurals import counted, one


class Kind(StrEnum):
    """A way to fill a position, in the order in which the ways are tried."""

    FIT = "fit"
    FREE = "free"
    REPAIR = "repair"
    PATTERN = "pattern"
    DRAWING = "drawing"
    ASK = "ask"


NAMES = {
    Kind.FIT: "fit what is in hand",
    Kind.FREE: "free from a later vehicle",
    Kind.REPAIR: "repair",
    Kind.PATTERN: "make from a pattern",
    Kind.DRAWING: "make from a drawing",
    Kind.ASK: "ask",
}


@dataclass(frozen=True, slots=True)
class Route:
    """One way to fill a position: what to do, with what, at which effort, and what to mind."""

    kind: Kind
    words: str
    part: InHand | None = None
    note: str = ""
    hours: Decimal | None = None
    cost: Decimal | None = None
    hazards: tuple[Hazard, ...] = ()
    url: str = ""
    want: Want | None = None

    @property
    def name(self) -> str:
        return NAMES[self.kind]

    @property
    def is_work(self) -> bool:
        return self.kind in (Kind.REPAIR, Kind.PATTERN, Kind.DRAWING)


@dataclass(frozen=True, slots=True)
class PositionRoutes:
    """The routes for one open position; there is always at least the last one, to ask."""

    position: Position
    routes: tuple[Route, ...]

    @property
    def best(self) -> Route:
        return self.routes[0]

    def has(self, kind: str) -> bool:
        return any(route.kind == kind for route in self.routes)

    @property
    def others(self) -> tuple[Route, ...]:
        return self.routes[1:]


@dataclass(frozen=True, slots=True)
class VehicleRoutes:
    """The routes of one vehicle, and what the best ones amount to for its essential positions.

    ``hours`` and ``cost`` sum what is known; ``unknown`` counts the works whose hours nobody
    has given. ``asked`` is what is asked for already, by component.
    """

    positions: tuple[PositionRoutes, ...]
    asked: Mapping[int, AskedFor]
    counts: tuple[tuple[Kind, str, int], ...]
    hours: Decimal
    cost: Decimal
    unknown: int
    hazards: tuple[Hazard, ...]

    def of(self, position: Position) -> PositionRoutes | None:
        return next((one for one in self.positions if one.position.pk == position.pk), None)


def needs_and_routes(vehicle: Vehicle) -> tuple[VehicleNeeds, VehicleRoutes]:
    """Return what a vehicle needs and the routes to it, in so many queries however much."""
    bench = lay_out([vehicle], with_sources=True)
    needs = needs_on(bench, [vehicle])[vehicle.pk]
    return needs, routes_on(bench, needs)


def routes_on(bench: Bench, needs: VehicleNeeds) -> VehicleRoutes:
    return routes_of_all(bench, [needs])[needs.vehicle.pk]


def routes_of_all(bench: Bench, all_needs: Iterable[VehicleNeeds]) -> dict[int, VehicleRoutes]:
    """Return the routes of each vehicle by its key, each as though it were alone in the shop."""
    all_needs = list(all_needs)
    vehicles = [needs.vehicle for needs in all_needs]
    own = (place for vehicle in vehicles for place in bench.places[vehicle.pk])
    kinds = {kind for place in own for kind in place.kinds}
    facts, lesser = facts_for_routes(bench, vehicles), lesser_uses(vehicles, kinds)
    return {
        needs.vehicle.pk: _routes(needs, bench, facts[needs.vehicle.pk], lesser[needs.vehicle.pk])
        for needs in all_needs
    }


def _routes(
    needs: VehicleNeeds, bench: Bench, facts: RouteFacts, lesser: LesserUses
) -> VehicleRoutes:
    places = {place.position.pk: place for place in bench.places[needs.vehicle.pk]}
    dealt = Counter(need.best.part.pk for need in needs.needs if need.best is not None)
    unfilled = [need for need in needs.needs if need.fitting is None]
    asking = _Asking(unfilled, facts.asked)
    guide = _Guide(bench, facts, lesser, dealt, asking)
    # What an essential position can be given must not go to one that can stay empty.
    unfilled.sort(key=lambda need: not need.position.is_essential)
    found = {n.position.pk: guide.routes(n, places[n.position.pk]) for n in unfilled}
    in_order = (found.get(need.position.pk) for need in needs.needs)
    return _summed_up(tuple(routes for routes in in_order if routes is not None), facts.asked)


def _summed_up(
    positions: tuple[PositionRoutes, ...], asked: Mapping[int, AskedFor]
) -> VehicleRoutes:
    best = [one.best for one in positions if one.position.is_essential]
    counts = Counter(route.kind for route in best)
    hazards = {hazard.pk: hazard for route in best for hazard in route.hazards}
    return VehicleRoutes(
        positions,
        asked,
        tuple((kind, NAMES[kind], counts[kind]) for kind in Kind if counts[kind]),
        sum((route.hours for route in best if route.hours is not None), Decimal(0)),
        sum((route.cost for route in best if route.cost is not None), Decimal(0)),
        sum(route.is_work and route.hours is None for route in best),
        tuple(hazards.values()),
    )


class _Asking:
    """The last route of each position: the want that asks for its piece, or the way to ask."""

    def __init__(self, unfilled: list[PositionNeed], asked: Mapping[int, AskedFor]) -> None:
        self.asked = asked
        self.wants = shared_out(unfilled, asked)
        self.lacking = [need.position for need in unfilled if need.is_blocking]

    def route(self, place: Place) -> Route:
        position, component = place.position, place.position.component
        want = self.wants.get(position.pk)
        if want is not None:
            words = "Asked for in public" if want.is_published else "A want is written"
            return Route(Kind.ASK, f"{words}: {want}.", url=want.get_absolute_url(), want=want)
        others = self.asked.get(component.pk, NOTHING_ASKED).elsewhere
        words = f"Ask others for {one(str(component))}. {others}".strip()
        return Route(Kind.ASK, words, url=asking_address(place.vehicle, self._with_like(position)))

    def _with_like(self, position: Position) -> list[Position]:
        """Return the position with all of its kind that are lacking, for one want asks for all."""
        like = (own for own in self.lacking if own.component_id == position.component_id)
        rest = (own for own in like if own.pk not in self.wants and own.pk != position.pk)
        return [position, *rest]


@dataclass(slots=True)
class _Guide:
    bench: Bench
    facts: RouteFacts
    lesser: LesserUses
    dealt: Counter[int]
    asking: _Asking
    cast: Counter[int] = field(default_factory=Counter)

    def routes(self, need: PositionNeed, place: Place) -> PositionRoutes:
        in_hand = tuple(self._in_hand(need, place))
        made = self._made(place, is_counted_on=not in_hand)
        return PositionRoutes(need.position, (*in_hand, *made, self.asking.route(place)))

    def _in_hand(self, need: PositionNeed, place: Place) -> Iterator[Route]:
        if need.best is not None and need.best.state == "available":
            yield _with(need.best, Kind.FIT, f"Fit {need.best.part}. {need.best.reason}")
        elif (freed := self.lesser.take(place)) is not None:
            use, candidate = freed
            words = f"Free {use.part}, {use.words}. {candidate.reason}"
            yield _with(candidate, Kind.FREE, words)
        broken = need.best if need.state == "repair" else self._broken(place)
        if broken is not None:
            yield self._repair(broken, place)

    def _repair(self, candidate: Candidate, place: Place) -> Route:
        wrong = f": {'; '.join(candidate.flags)}" if candidate.flags else ""
        route = _with(candidate, Kind.REPAIR, f"Repair {candidate.part}{wrong}.")
        component = place.position.component
        return replace(
            route,
            hours=component.repair_hours,
            cost=component.repair_cost,
            hazards=self._hazards(candidate.part.pk, place),
        )

    def _made(self, place: Place, *, is_counted_on: bool) -> Iterator[Route]:
        pattern = self._pattern(place)
        if pattern is not None:
            self.cast[pattern.part.pk] += is_counted_on
            material = self.facts.materials.get(pattern.part.pk, "")
            left = self.facts.castings_left.get(pattern.part.pk)
            told = (
                [] if left is None else [f"{counted(left, 'casting')} may still be made from it."]
            )
            share, piece = pattern.part.surviving_share, place.position.component.name
            note = " ".join([*told, allowance_note(material, share, piece=piece)])
            route = _with(pattern, Kind.PATTERN, f"Make one from {pattern.part} as pattern.")
            yield replace(self._making(route, place, pattern.part.pk), note=note)
        words = self.facts.documents.words_for(place)
        if words:
            yield self._making(Route(Kind.DRAWING, words), place)

    def _pattern(self, place: Place) -> Candidate | None:
        """Return the first pattern for the place from which another casting may be made."""
        for found in self.bench.candidates(place):
            left = self.facts.castings_left.get(found.part.pk)
            if found.state == "pattern" and (left is None or self.cast[found.part.pk] < left):
                return found
        return None

    def _making(self, route: Route, place: Place, part: int | None = None) -> Route:
        component = place.position.component
        return replace(
            route,
            hours=component.making_hours,
            cost=component.making_cost,
            hazards=self._hazards(part, place),
        )

    def _broken(self, place: Place) -> Candidate | None:
        """Return the first piece to repair that is not for another position already."""
        found = (one for one in self.bench.candidates(place) if one.state == "repair")
        return next((one for one in found if one.part.free > self.dealt[one.part.pk]), None)

    def _hazards(self, part: int | None, place: Place) -> tuple[Hazard, ...]:
        of_kind = self.facts.component_hazards.get(place.position.component_id, ())
        of_part = self.facts.part_hazards.get(part or 0, ())
        return tuple({hazard.pk: hazard for hazard in (*of_kind, *of_part)}.values())


def _with(candidate: Candidate, kind: Kind, words: str) -> Route:
    return Route(kind, words, part=candidate.part)
