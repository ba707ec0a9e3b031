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
from catalog.queries.plans import BestUsePlan, VehiclePlan, told_by_vehicle
from catalog.queries.remembered import remembered
from catalog.queries.structures import FROM as STRUCTURE
from catalog.reckoning.assignment import best_use

# A page that people open all day must not keep them waiting for a proof.
SECONDS = 0.5
# So many vehicles are worked out while somebody waits; for more, the plan has its own page.
PLANNED_AT_ONCE = 30
# All that a plan is made from.
FROM = (
    *(*STRUCTURE, Vehicle, Part, Location, Measurement, Fitting),
    *(Identification, Trial, Removal),
)


@dataclass(frozen=True, slots=True)
class ShopPlan:
    """What each vehicle gets, by its key, and the shortest list that completes one more.

    ``whole`` is the plan itself, where there is one.
    """

    vehicles: Mapping[int, VehiclePlan]
    next_step: Shopping | None
    whole: BestUsePlan | None = None


NO_PLAN = ShopPlan({}, None)


def plan_of_shop(vehicles: list[Vehicle]) -> ShopPlan:
    """Plan for those of the vehicles that are in the group's keeping, in their order.

    All vehicles must be given, or those left out are promised away what they are served first;
    where they are too many, nothing is planned.
    """
    kept = [vehicle for vehicle in vehicles if vehicle.status != Vehicle.Status.AWAY]
    if not 0 < len(kept) <= PLANNED_AT_ONCE:
        return NO_PLAN
    keys = ",".join(str(vehicle.pk) for vehicle in kept)
    return remembered(f"plan of {keys}", FROM, lambda: _planned(kept))


def _planned(vehicles: list[Vehicle]) -> ShopPlan:
    bench = lay_out(vehicles, at_least=lambda component: PARTS_AT_MOST)
    facts = facts_of(bench, vehicles)
    best = best_use(facts.shop, seconds=SECONDS)
    lists = shopping_lists(facts, best, vehicles, seconds=SECONDS)
    plan = told_by_vehicle(vehicles, bench, facts, best)
    by_key = {one.vehicle.pk: one for one in plan.vehicles}
    return ShopPlan(by_key, lists[0] if lists else None, plan)
