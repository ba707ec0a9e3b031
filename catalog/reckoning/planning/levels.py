"""Solve the levels of a plan one after another, each keeping what those before it reached."""

import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from math import floor

import numpy as np

from catalog.reckoning.planning.facts import Shop
from catalog.reckoning.planning.frames import read_frames
from catalog.reckoning.planning.lots import SOUND, free_quantities, gather_lots
from catalog.reckoning.planning.measures import Measures
from catalog.reckoning.planning.models import Model
from catalog.reckoning.planning.programs import WHOLE, Solution, Terms
from catalog.reckoning.planning.results import Level
from catalog.reckoning.planning.sizes import read_sizes
from catalog.reckoning.planning.sums import (
    complete_terms,
    cost_terms,
    filled_terms,
    sound_terms,
    stay_terms,
)
from catalog.reckoning.planning.unfolding import Plan, unfold

# What a plan amounts to, larger being better.
Measure = int | tuple[int, int]


class Climb:
    """Climb from level to level within a time limit, holding the best plan so far.

    >>> climb = Climb(Shop((), (), ()), seconds=1.0)
    >>> climb.complete_vehicles().value
    0
    """

    def __init__(self, shop: Shop, *, seconds: float):
        self.shop, self.measures, self.plan = shop, Measures(shop), Plan()
        self._sizes, self._free = read_sizes(shop), free_quantities(shop)
        self._deadline = time.monotonic() + seconds
        self._ranks = sorted({shop.ranks.get(vehicle, 0) for vehicle in shop.vehicles})

    def complete_vehicles(self) -> Level:
        """Complete as many vehicles as can be, those of lower rank before all others."""
        started = time.monotonic()
        model = self._model(_essential(self.shop), is_fine=False, allows_partial=False)
        value = bound = 0
        for rank in self._ranks:
            solution = self._solve(
                model,
                complete_terms(model, rank),
                partial(self.measures.weight_of_rank, rank=rank),
            )
            reached, already = (self.measures.weight_of_rank(p, rank) for p in (self.plan, {}))
            value, bound = value + reached, bound + already + _whole(solution.bound)
            self._keep_complete(model, rank)
        return _level("complete vehicles", value, bound, started)

    def fill_places(self) -> Level:
        """Fill as many essential places as can be."""
        started = time.monotonic()
        model = self._model(_essential(self.shop), is_fine=False, allows_partial=True)
        self._keep_complete(model, *self._ranks)
        solution = self._solve(model, filled_terms(model), self.measures.essential_filled)
        value = self.measures.essential_filled(self.plan)
        fixed = self.measures.essential_filled({})
        return _level("essential places filled", value, fixed + _whole(solution.bound), started)

    def prefer_sound(self) -> Level:
        """Raise the expected sound fits, keeping pieces where they came off when equal."""
        started = time.monotonic()
        model = self._fine_model()
        # All pieces that stay together count for less than a thousandth of one sound fit.
        stay = 1 / (len(self.shop.places) + 1)
        solution = self._solve(
            model,
            sound_terms(model, stay),
            lambda plan: (self.measures.thousandths(plan), self.measures.stays(plan)),
        )
        value, fixed = self.measures.thousandths(self.plan), self.measures.thousandths({})
        level = _level("expected sound fits", value, fixed + _whole(solution.bound), started)
        return replace(level, value=level.value / SOUND, bound=level.bound / SOUND)

    def save_effort(self) -> Level:
        """Lower the cost of making and repair as far as the levels before allow."""
        started = time.monotonic()
        cost = self.measures.cost(self.plan)
        if cost == 0:
            return _level("cost of making and repair", 0, 0, started)
        model = self._fine_model()
        fixed = self.measures.thousandths({})
        sound = self.measures.thousandths(self.plan) - fixed
        model.program.row(sound_terms(model), lower=sound)
        model.program.row(stay_terms(model), lower=self.measures.stays(self.plan))
        model.program.make_whole(range(model.program.width))
        solution = self._solve(model, cost_terms(model), lambda plan: -self.measures.cost(plan))
        least = max(0, -_whole(solution.bound))
        return _level("cost of making and repair", self.measures.cost(self.plan), least, started)

    def _fine_model(self) -> Model:
        model = self._model(self.shop, is_fine=True, allows_partial=True)
        self._keep_complete(model, *self._ranks)
        filled = self.measures.essential_filled(self.plan) - self.measures.essential_filled({})
        model.program.row(filled_terms(model), lower=filled)
        return model

    def _model(self, shop: Shop, *, is_fine: bool, allows_partial: bool) -> Model:
        frames = read_frames(shop, self._sizes).values()
        lots = gather_lots(shop, self._sizes, is_fine=is_fine)
        return Model(shop, self._sizes, frames, lots).build(allows_partial=allows_partial)

    def _keep_complete(self, model: Model, *ranks: int) -> None:
        """Let no vehicle of these ranks be lost again."""
        for rank in ranks:
            reached, already = (self.measures.weight_of_rank(p, rank) for p in (self.plan, {}))
            model.program.row(complete_terms(model, rank), lower=reached - already)

    def _solve(self, model: Model, terms: Terms, measure: Callable[[Plan], Measure]) -> Solution:
        """Solve for a sum and keep the plan found, unless the one before measures better."""
        left = self._deadline - time.monotonic()
        solution = model.program.maximize(terms, seconds=left)
        if solution.values is not None:
            values = solution.values
            if np.abs(values - np.round(values)).max(initial=0) > WHOLE:
                values = model.program.with_whole_fixed(terms, values)
            plan = unfold(model, values, self._free)
            self.plan = max(self.plan, plan, key=measure)
        return solution


def _essential(shop: Shop) -> Shop:
    """Return the shop without places that may stay empty."""
    places = [p for p in shop.places if p.is_essential or p.key in shop.fixed]
    kinds = {place.kind for place in places}
    fits = tuple(fit for fit in shop.fits if fit.place in kinds)
    return replace(shop, places=tuple(places), fits=fits)


def _whole(bound: float) -> int:
    return floor(bound + WHOLE)


def _level(name: str, value: int, bound: int, started: float) -> Level:
    return Level(name, value, bound, value == bound, time.monotonic() - started)
