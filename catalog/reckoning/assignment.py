"""Find the best use of the parts in hand over several vehicles, and prove that it is best.

Given are places to fill, pieces that may fill them, the probability that each fit is sound, and
rules of mating between places that touch. A plan puts at most one piece at a place, uses no
piece twice, leaves what is fixed, and never lets two pieces touch that do not mate. Of all
plans the best one

1. completes the most vehicles (every essential place filled), by the group's order or weights;
2. then fills the most essential places;
3. then has the most expected sound fits, and of equal ones keeps most pieces on the vehicle
   that they came off;
4. then costs the least making and repair.

Each level is an integer program, solved exactly and with the levels before it kept (the
lexicographic method of goal programming). Pieces that no level can tell apart are merged into
lots, and vehicles that lack the same into groups; mating rules are read as sizes. What is left
is a network flow with a few whole numbers on top; ``catalog.reckoning.planning`` holds it:
``facts`` what is given, ``sizes`` and ``labelings`` the mating, ``lots`` and ``frames`` the
merging, ``models`` the program itself, ``levels`` the order of solving, ``unfolding`` the way
back to single pieces.
"""

from collections.abc import Callable

from catalog.reckoning.planning.checks import PlanningError, checked, with_routes
from catalog.reckoning.planning.facts import (
    Fit,
    Mating,
    Piece,
    Place,
    Route,
    Shop,
    strict_order,
)
from catalog.reckoning.planning.levels import Climb
from catalog.reckoning.planning.one_more import (
    OneMore,
    ShoppingList,
    one_more,
    shortest_shopping_list,
)
from catalog.reckoning.planning.results import BestUse, Level
from catalog.reckoning.planning.supply import Enough, enough_for

__all__ = [
    "BestUse",
    "Enough",
    "Fit",
    "Level",
    "Mating",
    "OneMore",
    "Piece",
    "Place",
    "PlanningError",
    "Route",
    "Shop",
    "ShoppingList",
    "best_use",
    "enough_for",
    "one_more",
    "shortest_shopping_list",
    "strict_order",
    "with_routes",
]


def best_use(
    shop: Shop, *, seconds: float = 10.0, report: Callable[[Level], object] | None = None
) -> BestUse:
    """Return the best plan for a shop, with the bound and proof of each level.

    When ``seconds`` run out, the best plan so far comes back, with what is not proven marked.
    ``report`` is told of each level as soon as it is done. The same facts in any order give the
    same plan, unless time runs out.

    Assumption: probabilities count to the thousandth and are independent of each other.
    Method: integer programming by branch and cut (HiGHS; Huangfu and Hall, *Parallelizing the
    dual revised simplex method*, 2018).

    >>> hooks = tuple(Place(f"{v}/hook", v, "drawhead", is_essential=True) for v in ("14", "31"))
    >>> plan = best_use(Shop(hooks, (Piece("a", "drawhead"),), (Fit("a", "31/hook", 0.9),)))
    >>> plan.assignments, plan.sentence(), plan.unfilled
    ({'31/hook': 'a'}, '1 complete', ('14/hook',))
    """
    climb = Climb(checked(with_routes(shop)), seconds=seconds)
    levels = []
    for climb_level in (
        climb.complete_vehicles,
        climb.fill_places,
        climb.prefer_sound,
        climb.save_effort,
    ):
        levels.append(climb_level())
        if report is not None:
            report(levels[-1])
    plan = dict(sorted(climb.plan.items()))
    return BestUse(
        plan, climb.measures.complete(plan), tuple(levels), climb.measures.unfilled(plan)
    )
