"""The best use of what is in hand over several vehicles, with its reasons and its proof."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace

from catalog.models import Position, Vehicle
from catalog.queries.candidates import Candidate, Place
from catalog.queries.fit_bench import PARTS_AT_MOST, Bench, lay_out
from catalog.queries.makings import READY_ALONE, CountOn, Making
from catalog.queries.needs import SPOKEN_FOR, kept_words
from catalog.queries.plan_facts import PlanFacts, facts_of, key_of
from catalog.reckoning.assignment import BestUse, Level, Shop, best_use, with_routes
from catalog.reckoning.efforts import Effort
from catalog.reckoning.plurals import counted, listed
from catalog.reckoning.section_lining import LININGS
from catalog.reckoning.serving_order import serve_in_order

# A page must not keep people waiting; what is not proven by then is said to be so.
SECONDS = 1.2
MOST_NAMED = 3


@dataclass(frozen=True, slots=True)
class PlannedUse:
    """A part in hand that the plan sends to a position, and why it would do there."""

    position: Position
    candidate: Candidate


@dataclass(frozen=True, slots=True)
class PlannedRepair(PlannedUse):
    """A part in hand that has to be repaired before it would do."""

    effort: Effort


@dataclass(frozen=True, slots=True)
class PlannedMaking:
    """A new piece that the plan counts on for a position, and how it can be made."""

    position: Position
    making: Making


@dataclass(frozen=True, slots=True)
class OpenPosition:
    """A position that the plan leaves open, who was served before it, and its next best route."""

    position: Position
    served: tuple[Vehicle, ...]
    route: Candidate | None

    @property
    def words(self) -> str:
        state = LININGS[self.route.state if self.route else "nothing"].words
        if not self.served:
            return state
        names = listed([str(vehicle) for vehicle in self.served[:MOST_NAMED]])
        return f"what would fit goes to {names}; else {state}"


@dataclass(frozen=True, slots=True)
class VehiclePlan:
    """What one vehicle gets, and what stays open on it.

    ``kept`` counts the essential positions whose part is only reserved or on trial.
    """

    vehicle: Vehicle
    is_complete: bool
    uses: tuple[PlannedUse, ...]
    makes: tuple[PlannedMaking, ...]
    open: tuple[OpenPosition, ...]
    kept: Mapping[str, int] = field(default_factory=dict)

    @property
    def lacking(self) -> tuple[OpenPosition, ...]:
        """Return the essential positions that it leaves open."""
        return tuple(one for one in self.open if one.position.is_essential)

    @property
    def sentence(self) -> str:
        if self.is_complete:
            if self.is_spoken_for:
                return self._once_fitted
            return f"Can be completed{self._by_work}."
        lacking = Counter(one.position.component.name for one in self.lacking)
        return f"Waits for {_counted(lacking)}."

    @property
    def is_spoken_for(self) -> bool:
        """Say whether every essential position has its part, be it only reserved."""
        return self.is_complete and not _essential((*self.uses, *self.makes))

    @property
    def _once_fitted(self) -> str:
        count = sum(self.kept.values())
        if not count:
            return "Complete already."
        return f"Completed by what is {kept_words(self.kept)}: fit {counted(count, 'part')}."

    @property
    def _by_work(self) -> str:
        repairs = [use for use in self.uses if isinstance(use, PlannedRepair)]
        works = {"repairing": _essential(repairs), "making": _essential(self.makes)}
        told = [f"{verb} {_counted(names)}" for verb, names in works.items() if names]
        return f" by {listed(told)}" if told else ""


def _essential(lines: Iterable[PlannedUse | PlannedMaking]) -> Counter[str]:
    positions = (line.position for line in lines)
    return Counter(one.component.name for one in positions if one.is_essential)


def _counted(names: Mapping[str, int]) -> str:
    return listed([counted(count, name) for name, count in names.items()])


@dataclass(frozen=True, slots=True)
class BestUsePlan:
    """Which part goes where, vehicle by vehicle in their order, and how far that is proven best."""

    vehicles: tuple[VehiclePlan, ...]
    levels: tuple[Level, ...]
    sentence: str
    is_proven: bool

    @property
    def uses(self) -> tuple[tuple[Vehicle, PlannedUse], ...]:
        return tuple((plan.vehicle, use) for plan in self.vehicles for use in plan.uses)


@dataclass(frozen=True, slots=True)
class Wishes:
    """How a plan departs from the record, by the keys of vehicles and parts.

    ``ranks`` take the place of the restoration order, the lowest served before all others, and
    equal ones alike; ``weights`` say how much a vehicle counts among those of its rank; ``held``
    keeps a part for one vehicle; ``count_on`` says what counts besides parts ready for use.
    """

    ranks: Mapping[int, int] | None = None
    weights: Mapping[int, int] = field(default_factory=dict)
    held: Mapping[int, int] = field(default_factory=dict)
    count_on: CountOn = READY_ALONE

    def put_to(self, shop: Shop) -> Shop:
        held = {str(part): str(vehicle) for part, vehicle in self.held.items()}
        return replace(
            shop,
            ranks=shop.ranks if self.ranks is None else _by_text(self.ranks),
            weights=_by_text(self.weights),
            pieces=tuple(
                replace(piece, held_for=held.get(piece.key, piece.held_for))
                for piece in shop.pieces
            ),
        )


def _by_text(numbers: Mapping[int, int]) -> dict[str, int]:
    return {str(key): number for key, number in numbers.items()}


def vehicles_to_plan() -> list[Vehicle]:
    """Return the vehicles that are in the group's keeping, in the order of their restoration."""
    kept = Vehicle.objects.kept().exclude(status=Vehicle.Status.AWAY)
    return list(kept.select_related("vehicle_class").in_restoration_order())


def plan_best_use(
    vehicles: Iterable[Vehicle] | None = None,
    *,
    seconds: float = SECONDS,
    wishes: Wishes = Wishes(),
    report: Callable[[Level], object] | None = None,
) -> BestUsePlan:
    """Return the best use of all parts in hand over the vehicles, in restoration order.

    The vehicle with the lowest number is served before all others; those without a number come
    last and are equal, unless ``wishes`` say otherwise. ``report`` is told of each level as soon
    as it is done. Nothing is changed by asking.
    """
    vehicles = vehicles_to_plan() if vehicles is None else list(vehicles)
    bench = lay_out(vehicles, at_least=lambda component: PARTS_AT_MOST)
    facts = facts_of(bench, vehicles, count_on=wishes.count_on, held=wishes.held)
    shop = wishes.put_to(facts.shop)
    best = best_use(shop, seconds=seconds, report=report)
    return told_by_vehicle(vehicles, bench, replace(facts, shop=shop), best)


def told_by_vehicle(
    vehicles: Iterable[Vehicle], bench: Bench, facts: PlanFacts, best: BestUse
) -> BestUsePlan:
    """Say what the best use of the shop in ``facts`` means for each of the vehicles."""
    served = serve_in_order(with_routes(facts.shop), best.assignments, best.complete)
    best = replace(best, assignments=served)
    sent = {key: one for key, one in served.items() if (one, key) not in facts.candidates}
    makings = facts.makings.dealt(sent)
    plans = tuple(_vehicle_plan(vehicle, bench, facts, best, makings) for vehicle in vehicles)
    return BestUsePlan(plans, best.levels, best.sentence(), best.is_proven)


def _vehicle_plan(
    vehicle: Vehicle,
    bench: Bench,
    facts: PlanFacts,
    best: BestUse,
    makings: Mapping[str, Making],
) -> VehiclePlan:
    uses: list[PlannedUse] = []
    makes, still_open = [], []
    for place in bench.places[vehicle.pk]:
        key = key_of(place)
        piece = best.assignments.get(key)
        if piece is not None and (piece, key) not in facts.candidates:
            makes.append(PlannedMaking(place.position, makings[key]))
        elif piece is not None:
            uses.append(_use(place.position, facts, facts.candidates[piece, key]))
        elif place.fitting is None:
            served = _served(key, vehicle, facts, best.assignments)
            still_open.append(OpenPosition(place.position, served, _route(bench, place)))
    is_complete = str(vehicle.pk) in best.complete
    kept = _kept(bench.places[vehicle.pk])
    return VehiclePlan(vehicle, is_complete, tuple(uses), tuple(makes), tuple(still_open), kept)


def _kept(places: Iterable[Place]) -> Counter[str]:
    held = [place.fitting for place in places if place.fitting and place.position.is_essential]
    return Counter(fitting.state for fitting in held if fitting.state in SPOKEN_FOR)


def _use(position: Position, facts: PlanFacts, candidate: Candidate) -> PlannedUse:
    effort = facts.repairs.get(candidate.part.key)
    if effort is None:
        return PlannedUse(position, candidate)
    return PlannedRepair(position, candidate, effort)


def _route(bench: Bench, place: Place) -> Candidate | None:
    """Return what to repair, or to cast from, when no part that fits is left."""
    ways = (c for c in bench.candidates(place) if c.state in ("repair", "pattern"))
    return next(ways, None)


def _served(
    key: str, vehicle: Vehicle, facts: PlanFacts, assignments: Mapping[str, str]
) -> tuple[Vehicle, ...]:
    """Return the other vehicles that get what would have done here too."""
    others = {
        facts.places[place].vehicle.pk: facts.places[place].vehicle
        for place, part in assignments.items()
        if (part, key) in facts.candidates and facts.places[place].vehicle.pk != vehicle.pk
    }
    return tuple(others.values())
