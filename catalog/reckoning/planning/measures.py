"""Measure a plan by itself, without trusting the program that found it."""

from collections.abc import Mapping
from dataclasses import replace

from catalog.reckoning.planning.facts import Shop
from catalog.reckoning.planning.lots import SOUND


class Measures:
    """Tell what any plan for one shop amounts to at each level.

    >>> Measures(Shop((), (), ())).complete({})
    ()
    """

    def __init__(self, shop: Shop):
        self._shop = shop
        self._essential = {vehicle: set[str]() for vehicle in shop.vehicles}
        for place in shop.places:
            if place.is_essential:
                self._essential[place.vehicle].add(place.key)
        self._vehicle_of = {place.key: place.vehicle for place in shop.places}
        self._kind_of = {place.key: place.kind for place in shop.places}
        self._pieces = {piece.key: piece for piece in shop.pieces}
        self._thousandths = {(f.piece, f.place): round(f.probability * SOUND) for f in shop.fits}

    def complete(self, plan: Mapping[str, str]) -> tuple[str, ...]:
        """Return the vehicles whose every essential place is filled, in their order."""
        filled = {*self._shop.fixed, *plan}
        return tuple(name for name, wanted in self._essential.items() if wanted <= filled)

    def weight_of_rank(self, plan: Mapping[str, str], rank: int) -> int:
        """Return the complete vehicles of one rank, each counted by its weight."""
        shop = self._shop
        done = [name for name in self.complete(plan) if shop.ranks.get(name, 0) == rank]
        return sum(shop.weights.get(name, 1) for name in done)

    def counted_apart(self, plan: Mapping[str, str]) -> int | None:
        """Return how many vehicles are complete, where weights count them as more than that."""
        is_weighed = any(weight != 1 for weight in self._shop.weights.values())
        return len(self.complete(plan)) if is_weighed else None

    def most_of_rank(self, rank: int) -> int:
        """Return what a rank would count for if all its vehicles were complete."""
        shop = self._shop
        return sum(shop.weights.get(v, 1) for v in shop.vehicles if shop.ranks.get(v, 0) == rank)

    @property
    def essential(self) -> int:
        """Return the number of essential places."""
        return sum(map(len, self._essential.values()))

    def essential_filled(self, plan: Mapping[str, str]) -> int:
        """Return how many essential places are filled, fixed ones with them."""
        filled = {*self._shop.fixed, *plan}
        return sum(len(wanted & filled) for wanted in self._essential.values())

    def sound(self, plan: Mapping[str, str], stay: float = 0.0) -> float:
        """Return thousandths of sound fits, and ``stay`` for each piece back where it was.

        What is fixed already counts as sound.
        """
        planned = sum(
            self._thousandths[piece, self._kind_of[place]] for place, piece in plan.items()
        )
        bonus = stay * self.stays(plan) if stay else 0.0
        return planned + SOUND * len(self._shop.fixed) + bonus

    def stays(self, plan: Mapping[str, str]) -> int:
        """Return how many pieces go back to the vehicle that they came off."""
        return sum(
            self._pieces[piece].came_off == self._vehicle_of[place] for place, piece in plan.items()
        )

    def cost(self, plan: Mapping[str, str]) -> int:
        """Return what making and repairing the pieces of a plan comes to."""
        return sum(self._pieces[piece].cost for piece in plan.values())

    def unfilled(self, plan: Mapping[str, str]) -> tuple[str, ...]:
        """Return the places that stay empty, sorted."""
        return tuple(sorted(self._vehicle_of.keys() - self._shop.fixed.keys() - plan.keys()))


def essential_part(shop: Shop) -> Shop:
    """Return the shop without open places that may stay empty.

    >>> essential_part(Shop((), (), ())).places
    ()
    """
    places = [p for p in shop.places if p.is_essential or p.key in shop.fixed]
    kinds = {place.kind for place in places}
    fits = tuple(fit for fit in shop.fits if fit.place in kinds)
    return replace(shop, places=tuple(places), fits=fits)
