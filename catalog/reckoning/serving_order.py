"""Let vehicles have in their order what no level of a plan tells apart."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field

from catalog.reckoning.assignment import Place, Shop


def serve_in_order(
    shop: Shop, plan: Mapping[str, str], complete: Collection[str]
) -> dict[str, str]:
    """Return a plan as good as ``plan``, in which earlier vehicles are served first.

    Where a piece stands at a vehicle that stays incomplete, and an incomplete vehicle before it
    has the same kind of place open, the piece goes there. As many places stay filled, no vehicle
    is completed or undone, and no fit becomes less sound, so that every level of the plan keeps
    its value and its proof. Pieces are not parted from the vehicle that they came off.

    Where an earlier vehicle would wait for a piece that is still to be made or repaired, and a
    later one has one that takes less, the two pieces change places, unless only the later vehicle
    is completed by the plan.

    >>> from dataclasses import replace
    >>> from catalog.reckoning.assignment import Fit
    >>> shop = Shop((Place("14/a", "14", "hook", is_essential=True),
    ...              Place("31/a", "31", "hook", is_essential=True)), (), (), ranks={"31": 1})
    >>> serve_in_order(replace(shop, fits=(Fit("1", "14/a", 0.9),)), {"31/a": "1"}, ())
    {'14/a': '1'}
    """
    return _Serving(shop, dict(plan), complete).served()


@dataclass(slots=True)
class _Serving:
    shop: Shop
    plan: dict[str, str]
    complete: Collection[str]
    chances: Mapping[tuple[str, str], float] = field(init=False)
    places: Mapping[str, Place] = field(init=False)
    origins: Mapping[str, tuple[str | None, str | None]] = field(init=False)
    costs: Mapping[str, int] = field(init=False)

    def __post_init__(self) -> None:
        self.chances = {(fit.piece, fit.place): fit.probability for fit in self.shop.fits}
        self.places = {place.key: place for place in self.shop.places}
        self.origins = {p.key: (p.came_off, p.held_for) for p in self.shop.pieces}
        self.costs = {piece.key: piece.cost for piece in self.shop.pieces}

    def served(self) -> dict[str, str]:
        waiting = [name for name in self.shop.vehicles if name not in self.complete]
        for number, vehicle in enumerate(waiting):
            for place in self._open(vehicle):
                giver = next(self._givers(place, waiting[number + 1 :]), None)
                if giver is not None:
                    self.plan[place.key] = self.plan.pop(giver)
        self._give_what_takes_less_first()
        return dict(sorted(self.plan.items()))

    def _give_what_takes_less_first(self) -> None:
        by_component: dict[str, list[Place]] = {}
        for key in sorted(self.plan, key=self._turn):
            by_component.setdefault(self.places[key].component, []).append(self.places[key])
        for places in by_component.values():
            for number, here in enumerate(places):
                if not self._cost(here):
                    continue
                later = sorted(places[number + 1 :], key=self._cost)
                there = next((one for one in later if self._may_exchange(here, one)), None)
                if there is not None:
                    self._exchange(here, there)

    def _turn(self, key: str) -> tuple[int, str]:
        return (self.shop.ranks.get(self.places[key].vehicle, 0), key)

    def _cost(self, place: Place) -> int:
        return self.costs.get(self.plan[place.key], 0)

    def _may_exchange(self, here: Place, there: Place) -> bool:
        is_later = self._turn(there.key)[0] > self._turn(here.key)[0]
        is_served = here.vehicle in self.complete or there.vehicle not in self.complete
        return (
            is_later
            and is_served
            and self._cost(there) < self._cost(here)
            and self._stays_as_good(here, there)
        )

    def _stays_as_good(self, here: Place, there: Place) -> bool:
        one, other = self.plan[here.key], self.plan[there.key]
        before = self._chance(one, here) + self._chance(other, there)
        after = (self._chance(one, there), self._chance(other, here))
        if min(after) < 0 or sum(after) < before or not self._may_part(one, here, there):
            return False
        if not self._may_part(other, there, here):
            return False
        self._exchange(here, there)
        is_mating = self._mates(one, there) and self._mates(other, here)
        self._exchange(here, there)
        return is_mating

    def _may_part(self, piece: str, from_place: Place, to: Place) -> bool:
        came_off, held_for = self.origins.get(piece, (None, None))
        return came_off != from_place.vehicle and held_for in (None, to.vehicle)

    def _exchange(self, here: Place, there: Place) -> None:
        plan = self.plan
        plan[here.key], plan[there.key] = plan[there.key], plan[here.key]

    def _open(self, vehicle: str) -> Iterator[Place]:
        for place in self.shop.places:
            is_own = place.vehicle == vehicle and place.is_essential
            if is_own and place.key not in self.plan and place.key not in self.shop.fixed:
                yield place

    def _givers(self, place: Place, later: list[str]) -> Iterator[str]:
        rank = self.shop.ranks.get(place.vehicle, 0)
        for key in sorted(self.plan):
            other = self.places[key]
            if other.component != place.component:
                continue
            is_later = self.shop.ranks.get(other.vehicle, 0) > rank and other.vehicle in later
            if is_later and other.is_essential and self._is_as_good(self.plan[key], other, place):
                yield key

    def _is_as_good(self, piece: str, there: Place, here: Place) -> bool:
        return (
            self._may_part(piece, there, here)
            and self._chance(piece, here) >= max(0.0, self._chance(piece, there))
            and self._mates(piece, here)
        )

    def _chance(self, piece: str, place: Place) -> float:
        return self.chances.get((piece, place.key), self.chances.get((piece, place.kind), -1.0))

    def _mates(self, piece: str, here: Place) -> bool:
        near = set(here.corner.split())
        beside = [
            self.places[key]
            for key in self.plan
            if key != here.key
            and self.places[key].vehicle == here.vehicle
            and near.intersection(self.places[key].corner.split())
        ]
        return not any(
            self._clash(here.component, piece, place.component, self.plan[place.key])
            for place in beside
        )

    def _clash(self, component: str, piece: str, other_component: str, other: str) -> bool:
        for rule in self.shop.matings:
            size, other_size = rule.size_of.get(piece, piece), rule.size_of.get(other, other)
            both = (rule.component_a, rule.component_b)
            if both == (component, other_component) and (size, other_size) in rule.conflicts:
                return True
            if both == (other_component, component) and (other_size, size) in rule.conflicts:
                return True
        return False
