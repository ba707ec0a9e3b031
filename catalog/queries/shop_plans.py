"""The plan that the home page goes by, worked out again only when something changed."""

from collections.abc import Mapping
from dataclasses import dataclass

from catalog.models import (
    Fitting,
    Identification,
    Location,
    Measurement,
    Part,
    Removal,
    Trial,
    Vehicle,
)
from catalog.queries.fit_bench import PARTS_AT_MOST, lay_out
from catalog.queries.one_more import Shopping, shopping_lists
from catalog.queries.plan_facts import facts_of
from catalog.queries.plans import VehiclePlan, told_by_vehicle
from catalog.queries.remembered import remembered
from catalog.queries.structures import FROM as STRUCTURE
from catalog.reckoning.assignment import best_use

# A page that people open all day must not keep them waiting for a proof.
SECONDS = 0.5
# All that a plan is made from.
FROM = (
    *(*STRUCTURE, Vehicle, Part, Location, Measurement, Fitting),
    *(Identification, Trial, Removal),
)


@dataclass(frozen=True, slots=True)
class ShopPlan:
    """What each vehicle gets, by its key, and the shortest list that completes one more."""

    vehicles: Mapping[int, VehiclePlan]
    next_step: Shopping | None


NO_PLAN = ShopPlan({}, None)


def plan_of_shop(vehicles: list[Vehicle]) -> ShopPlan:
    """Plan for those of the vehicles that are in the group's keeping, in their order."""
    kept = [vehicle for vehicle in vehicles if vehicle.status != Vehicle.Status.AWAY]
    keys = ",".join(str(vehicle.pk) for vehicle in kept)
    return remembered(f"plan of {keys}", FROM, lambda: _planned(kept)) if kept else NO_PLAN


def _planned(vehicles: list[Vehicle]) -> ShopPlan:
    bench = lay_out(vehicles, at_least=lambda component: PARTS_AT_MOST)
    facts = facts_of(bench, vehicles)
    best = best_use(facts.shop, seconds=SECONDS)
    lists = shopping_lists(facts, best, vehicles, seconds=SECONDS)
    plan = told_by_vehicle(vehicles, bench, facts, best)
    by_key = {one.vehicle.pk: one for one in plan.vehicles}
    return ShopPlan(by_key, lists[0] if lists else None)
