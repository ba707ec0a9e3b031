"""Solve the levels of a plan one after another, each keeping what those before it reached."""

import time
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import replace
from functools import partial
from math import isfinite

from catalog.reckoning.planning.facts import TENTHS, Shop
from catalog.reckoning.planning.frames import Frame, frames_as_planned, read_frames
from catalog.reckoning.planning.lots import SOUND, free_quantities, gather_lots
from catalog.reckoning.planning.measures import Measures, essential_part
from catalog.reckoning.planning.models import Model
from catalog.reckoning.planning.orders import Stack, stacks
from catalog.reckoning.planning.programs import Terms, whole_part
from catalog.reckoning.planning.quick import quick_plan
from catalog.reckoning.planning.results import Level
from catalog.reckoning.planning.sizes import read_sizes
from catalog.reckoning.planning.sums import (
    complete_terms,
    cost_terms,
    filled_terms,
    sound_terms,
    stay_terms,
)
from catalog.reckoning.planning.turns import FEW, turns_of
from catalog.reckoning.planning.unfolding import Plan, unfold

# What a plan amounts to, larger being better.
Measure = Callable[[Plan], float]

# How much of the time left each level may take.
SHARES = (0.5, 0.5, 0.9, 1.0)
# By which shares of its time the third level is settled at once, or improved in turns.
SETTLED, IMPROVED = 0.15, 0.55


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
        self._shares = iter(SHARES)
        # All pieces that stay together count for less than a thousandth of one sound fit.
        self._stay = 1 / (len(shop.places) + 1)

    def complete_vehicles(self) -> Level:
        """Complete as many vehicles as can be, those of lower rank before all others."""
        started, until = time.monotonic(), self._next_limit()
        model = self._coarse_model(allows_partial=False)
        value = bound = 0
        for stack in stacks(self.shop):
            measure = partial(self._stacked, stack)
            totals = {rank: self.measures.most_of_rank(rank) for rank in stack}
            most = sum(factor * totals[rank] for rank, factor in stack.items())
            reached, most = self._solve(model, complete_terms(model, stack), measure, most, until)
            if reached < most:
                self._keep_better(quick_plan(self.shop, self._sizes))
            block = sum(self.measures.weight_of_rank(self.plan, rank) for rank in stack)
            # Only a sum of one rank has a bound that says something about its vehicles.
            total = most if len(stack) == 1 else sum(totals.values())
            value, bound = value + block, bound + (block if reached == most else total)
            self._keep_complete(model, stack)
        level = _level("complete vehicles", value, bound, started)
        return replace(level, vehicles=self.measures.counted_apart(self.plan))

    def fill_places(self) -> Level:
        """Fill as many essential places as can be."""
        started, until = time.monotonic(), self._next_limit()
        model = self._coarse_model(allows_partial=True)
        self._keep_all_complete(model)
        measure, most = self.measures.essential_filled, self.measures.essential
        value, bound = self._solve(model, filled_terms(model), measure, most, until)
        return _level("essential places filled", value, bound, started)

    def prefer_sound(self) -> Level:
        """Raise the expected sound fits, keeping pieces where they came off when equal.

        Pieces are first exchanged among the places that are filled already, each in its size,
        which takes no time. A seventh of the time settles most levels. When it does not, dealing
        anew to some vehicles at a time soon finds a good plan, but no bound; that takes the rest
        of the time, over all plans at once.
        """
        started, until = time.monotonic(), self._next_limit()
        settled, improved = (started + (until - started) * share for share in (SETTLED, IMPROVED))
        self._use_what_is_ready(settled)
        measure = partial(self.measures.sound, stay=self._stay)
        most = (SOUND + 1) * len(self.shop.places)
        frames = read_frames(self.shop, self._sizes)
        swapped = self._fine_model(frames_as_planned(self.shop, self._sizes, self.plan))
        self._solve(swapped, sound_terms(swapped, self._stay), measure, most, settled)
        model = self._fine_model(frames)
        terms = sound_terms(model, self._stay)
        value, bound = self._solve(model, terms, measure, most, settled)
        if value < bound:
            self._deal_in_turns(frames, measure, bound, improved)
            value, bound = self._solve(model, terms, measure, bound, until)
        level = _level("expected sound fits", value, bound, started)
        return replace(level, value=value / SOUND, bound=bound / SOUND)

    def _use_what_is_ready(self, until: float) -> None:
        """Use what is ready before what takes work, as a fair start for the level to come."""
        if self.measures.cost(self.plan):
            model = self._coarse_model(allows_partial=True)
            self._keep_levels(model)
            self._solve(model, cost_terms(model), self.measures.essential_filled, 0, until)

    def _deal_in_turns(
        self, frames: Mapping[str, Frame], measure: Measure, bound: int, until: float
    ) -> None:
        """Deal anew to a few vehicles, then to others; to more at once when that gains nothing."""
        size, turn = FEW, 0
        while time.monotonic() < until:
            before = self.plan
            for some in turns_of(list(frames), size, turn):
                self._deal_anew(some, frames, measure, until)
                if whole_part(measure(self.plan)) >= bound or time.monotonic() >= until:
                    return
            if size >= len(frames):
                return
            size, turn = size * 2 if self.plan is before else size, turn + 1

    def _deal_anew(
        self, some: Collection[str], frames: Mapping[str, Frame], measure: Measure, until: float
    ) -> None:
        """Let some vehicles take any piece that no other needs, the others swap like for like.

        The same vehicles stay complete.
        """
        kept = frames_as_planned(self.shop, self._sizes, self.plan)
        model = self._fine_model({**kept, **{vehicle: frames[vehicle] for vehicle in some}})
        complete = {*self.measures.complete(self.plan), *(kept.keys() - some)}
        for group in model.groups:
            if not group.frame.is_full:
                still = sum(frame.vehicle in complete for frame in group.frames)
                model.program.row({group.complete: 1.0}, lower=still)
        most = (SOUND + 1) * len(self.shop.places)
        self._solve(model, sound_terms(model, self._stay), measure, most, until)

    def save_effort(self) -> Level:
        """Lower the cost of making and repair as far as the levels before allow."""
        started, until = time.monotonic(), self._next_limit()
        if self.measures.cost(self.plan) == 0:
            return _level("hours of making and repair", 0, 0, started)
        model = self._fine_model(read_frames(self.shop, self._sizes))
        sound = self.measures.sound(self.plan) - self.measures.sound({})
        model.program.row(sound_terms(model), lower=sound)
        model.program.row(stay_terms(model), lower=self.measures.stays(self.plan))
        model.program.make_whole(range(model.program.width))
        saved = self._solve(
            model,
            cost_terms(model),
            lambda plan: -self.measures.cost(plan),
            0,
            until,
        )
        level = _level("hours of making and repair", -saved[0], -saved[1], started)
        return replace(level, value=level.value / TENTHS, bound=level.bound / TENTHS)

    def _next_limit(self) -> float:
        now = time.monotonic()
        return now + next(self._shares) * (self._deadline - now)

    def _fine_model(self, frames: Mapping[str, Frame]) -> Model:
        lots = gather_lots(self.shop, self._sizes, is_fine=True)
        model = Model(self.shop, self._sizes, frames.values(), lots).build(allows_partial=True)
        self._keep_levels(model)
        return model

    def _keep_levels(self, model: Model) -> None:
        self._keep_all_complete(model)
        filled = self.measures.essential_filled(self.plan) - self.measures.essential_filled({})
        model.program.row(filled_terms(model), lower=filled)

    def _coarse_model(self, *, allows_partial: bool) -> Model:
        shop = essential_part(self.shop)
        frames = read_frames(shop, self._sizes).values()
        lots = gather_lots(shop, self._sizes, is_fine=False)
        return Model(shop, self._sizes, frames, lots).build(allows_partial=allows_partial)

    def _keep_all_complete(self, model: Model) -> None:
        for stack in stacks(self.shop):
            self._keep_complete(model, stack)

    def _keep_complete(self, model: Model, ranks: Iterable[int]) -> None:
        """Let no vehicle of these ranks be lost again."""
        for rank in ranks:
            reached, already = (self.measures.weight_of_rank(p, rank) for p in (self.plan, {}))
            model.program.row(complete_terms(model, {rank: 1}), lower=reached - already)

    def _stacked(self, stack: Stack, plan: Plan) -> int:
        return sum(
            factor * self.measures.weight_of_rank(plan, rank) for rank, factor in stack.items()
        )

    def _solve(
        self, model: Model, terms: Terms, measure: Measure, most: float, until: float
    ) -> tuple[int, int]:
        """Solve for a sum, keep the better plan, and return what it measures and its bound.

        ``most`` is what no plan at all could exceed.
        """
        is_whole = all(factor.is_integer() for factor in terms.values())
        solution = model.program.maximize(
            terms,
            seconds=until - time.monotonic(),
            step=1.0 if is_whole else self._stay,
        )
        found = solution.values
        values = None if found is None else model.program.at_vertex(terms, found)
        if values is not None:
            self._keep_better(unfold(model, values, self._free))
        value = whole_part(measure(self.plan))
        bound = measure({}) + solution.bound
        return value, max(value, whole_part(min(most, bound) if isfinite(bound) else most))

    def _keep_better(self, plan: Plan) -> None:
        self.plan = max(self.plan, plan, key=self._objective)

    def _objective(self, plan: Plan) -> tuple[float, ...]:
        """Return what a plan amounts to at every level, larger being better."""
        complete = (self._stacked(stack, plan) for stack in stacks(self.shop))
        sound = self.measures.sound(plan, self._stay)
        return *complete, self.measures.essential_filled(plan), sound, -self.measures.cost(plan)


def _level(name: str, value: int, bound: int, started: float) -> Level:
    return Level(name, value, bound, value == bound, time.monotonic() - started)
