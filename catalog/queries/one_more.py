"""What one more piece would change, found by planning again with it."""

import time
from collections import Counter
from dataclasses import dataclass, replace

from catalog.models import Component, Vehicle
from catalog.queries.fit_bench import PARTS_AT_MOST, lay_out
from catalog.queries.plan_facts import PlanFacts, facts_of
from catalog.queries.plans import vehicles_to_plan
from catalog.reckoning.assignment import (
    BestUse,
    Shop,
    best_use,
    one_more,
    shortest_shopping_list,
)
from catalog.reckoning.plurals import counted, listed

# What a page may take; what is not proven by then is said to be so.
SECONDS = 4.0
MOST = 3


@dataclass(frozen=True, slots=True)
class Gain:
    """How many more vehicles one, two and three pieces more of a component would complete."""

    component: Component
    gains: tuple[int, ...]
    is_proven: bool

    @property
    def is_any(self) -> bool:
        return any(self.gains)


@dataclass(frozen=True, slots=True)
class Shopping:
    """The fewest pieces that complete a vehicle, beside what is in hand and not spoken for."""

    vehicle: Vehicle
    pieces: tuple[tuple[Component, int], ...]
    is_proven: bool

    @property
    def length(self) -> int:
        return sum(count for _, count in self.pieces)

    @property
    def sentence(self) -> str:
        if not self.pieces:
            return f"What is in hand completes {self.vehicle}."
        if self.length == 1:
            return f"One more {self.pieces[0][0]} would complete {self.vehicle}."
        wanted = listed([counted(count, str(component)) for component, count in self.pieces])
        return f"With {wanted} more, {self.vehicle} would be complete."


@dataclass(frozen=True, slots=True)
class WhatMore:
    """What more pieces would change over all vehicles that are planned for.

    ``lists`` has the vehicles that the plan of today leaves open, the shortest list first.
    """

    gains: tuple[Gain, ...]
    lists: tuple[Shopping, ...]
    complete: tuple[Vehicle, ...]
    is_proven: bool

    @property
    def telling(self) -> tuple[Gain, ...]:
        return tuple(gain for gain in self.gains if gain.is_any)

    @property
    def idle(self) -> tuple[Gain, ...]:
        return tuple(gain for gain in self.gains if not gain.is_any)

    @property
    def shortest(self) -> Shopping | None:
        return self.lists[0] if self.lists else None


def what_more(*, seconds: float = SECONDS) -> WhatMore:
    """Return what one, two and three pieces more of each component would complete.

    The new piece is taken to fit wherever its component goes. Nothing is changed by asking.
    """
    vehicles = vehicles_to_plan()
    facts = _facts(vehicles)
    found = one_more(facts.shop, most=MOST, seconds=seconds)
    components = _components(facts)
    gains = (Gain(components[one.component], one.gains, one.is_proven) for one in found)
    best = best_use(facts.shop, seconds=seconds)
    return WhatMore(
        tuple(gains),
        shopping_lists(facts, best, vehicles, seconds=seconds),
        tuple(vehicle for vehicle in vehicles if str(vehicle.pk) in best.complete),
        all(one.is_proven for one in found),
    )


def shopping_for(vehicle: Vehicle, *, seconds: float = SECONDS) -> Shopping | None:
    """Return the fewest pieces that complete this vehicle.

    What the plan of today gives to vehicles that it completes stays with them.
    """
    vehicles = vehicles_to_plan()
    if vehicle not in vehicles:
        vehicles.append(vehicle)
    facts = _facts(vehicles)
    return _shopping(facts, best_use(facts.shop, seconds=seconds), vehicle, seconds)


def shopping_lists(
    facts: PlanFacts, best: BestUse, vehicles: list[Vehicle], *, seconds: float
) -> tuple[Shopping, ...]:
    """Return the list of each vehicle that the plan leaves open, the shortest first."""
    deadline = time.monotonic() + seconds
    found = []
    for vehicle in vehicles:
        left = deadline - time.monotonic()
        if str(vehicle.pk) not in best.complete and left > 0:
            found.append(_shopping(facts, best, vehicle, left))
    return tuple(sorted(filter(None, found), key=lambda one: one.length))


def _shopping(facts: PlanFacts, best: BestUse, vehicle: Vehicle, seconds: float) -> Shopping | None:
    if str(vehicle.pk) in best.complete:
        return Shopping(vehicle, (), is_proven=True)
    found = shortest_shopping_list(_left_for(vehicle, facts.shop, best), seconds=seconds)
    if found is None:
        return None
    components = _components(facts)
    pieces = tuple((components[key], count) for key, count in sorted(found.pieces.items()))
    return Shopping(vehicle, pieces, found.is_proven)


def _left_for(vehicle: Vehicle, shop: Shop, best: BestUse) -> Shop:
    """Return the shop with this vehicle alone, without what completed vehicles are given."""
    own = tuple(place for place in shop.places if place.vehicle == str(vehicle.pk))
    keys = {place.key for place in own}
    taken = Counter(piece for place, piece in shop.fixed.items() if place not in keys)
    complete = {place.key for place in shop.places if place.vehicle in best.complete}
    taken.update(piece for place, piece in best.assignments.items() if place in complete)
    pieces = {
        piece.key: replace(piece, quantity=piece.quantity - taken[piece.key])
        for piece in shop.pieces
        if piece.quantity > taken[piece.key]
    }
    kinds = keys | {place.kind for place in own}
    return replace(
        shop,
        places=own,
        pieces=tuple(pieces.values()),
        fits=tuple(fit for fit in shop.fits if fit.piece in pieces and fit.place in kinds),
        fixed={place: piece for place, piece in shop.fixed.items() if place in keys},
        ranks={},
    )


def _facts(vehicles: list[Vehicle]) -> PlanFacts:
    return facts_of(lay_out(vehicles, at_least=lambda component: PARTS_AT_MOST), vehicles)


def _components(facts: PlanFacts) -> dict[str, Component]:
    positions = (place.position for place in facts.places.values())
    return {str(position.component_id): position.component for position in positions}
