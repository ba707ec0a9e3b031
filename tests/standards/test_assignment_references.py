"""Check the planner against exhaustion and against other solvers."""

from dataclasses import replace
from itertools import product

import networkx as nx
import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, linear_sum_assignment, milp

from catalog.reckoning.assignment import Shop, best_use, with_routes
from catalog.reckoning.planning.measures import Measures
from tests.benchmarks.plain_formulation import PlainFormulation
from tests.reckoning.planning_samples import is_lawful, mates
from tests.standards.random_shops import making_shop, middle_shop, small_shop, uncoupled_shop


def all_plans(shop: Shop):
    """Yield every plan that obeys the rules, by trying all."""
    free = {p.key: p.quantity for p in shop.pieces}
    for piece in shop.fixed.values():
        free[piece] -= 1
    open_places = [place for place in shop.places if place.key not in shop.fixed]
    pieces = {piece.key: piece for piece in shop.pieces}
    choices = [
        [
            None,
            *(
                f.piece
                for f in shop.fits
                if f.place == place.kind and pieces[f.piece].held_for in (None, place.vehicle)
            ),
        ]
        for place in open_places
    ]
    for choice in product(*choices):
        plan = {p.key: piece for p, piece in zip(open_places, choice, strict=True) if piece}
        used = list(plan.values())
        if all(used.count(piece) <= free[piece] for piece in set(used)) and mates(shop, plan):
            yield plan


def objective(shop: Shop, plan) -> tuple:
    """Return what a plan amounts to at each level, larger being better."""
    measures = Measures(shop)
    ranks = sorted({shop.ranks.get(vehicle, 0) for vehicle in shop.vehicles})
    return (
        *(measures.weight_of_rank(plan, rank) for rank in ranks),
        measures.essential_filled(plan),
        measures.sound(plan),
        measures.stays(plan),
        -measures.cost(plan),
    )


@pytest.mark.parametrize("hundred", range(20))
def test_best_use_equals_the_best_of_all_plans(hundred):
    for seed in range(100 * hundred, 100 * hundred + 100):
        shop = small_shop(seed)

        use = best_use(shop)

        assert use.is_proven, seed
        assert mates(shop, use.assignments), seed
        assert is_lawful(shop, use.assignments), seed
        best = max(objective(shop, plan) for plan in all_plans(shop))
        assert objective(shop, use.assignments) == best, seed


@pytest.mark.parametrize("hundred", range(10))
def test_best_use_with_pieces_to_be_made_equals_the_best_of_all_plans(hundred):
    for seed in range(100 * hundred, 100 * hundred + 100):
        offered = making_shop(seed)

        use = best_use(offered)

        shop = with_routes(offered)
        assert use.is_proven, seed
        assert mates(shop, use.assignments), seed
        assert is_lawful(shop, use.assignments), seed
        best = max(objective(shop, plan) for plan in all_plans(shop))
        assert objective(shop, use.assignments) == best, seed
        assert use.levels[3].value == -best[-1] / 10, seed


@pytest.mark.parametrize("seed", range(200))
def test_pieces_to_be_made_never_cost_a_vehicle_or_a_position(seed):
    offered = making_shop(seed)
    shop = with_routes(offered)

    with_making, without = (
        objective(shop, best_use(one).assignments) for one in (offered, replace(offered, routes=()))
    )

    # All but sound fits, which side pieces stay on, and cost: those pay for what comes before.
    assert with_making[:-3] >= without[:-3]


@pytest.mark.parametrize("seed", range(20))
def test_best_use_fills_as_many_places_as_a_maximum_matching(seed):
    shop = uncoupled_shop(seed)
    graph = nx.Graph((f"piece {fit.piece}", fit.place) for fit in shop.fits)

    use = best_use(shop)

    tops = {node for node in graph if node.startswith("piece")}
    matching = nx.bipartite.hopcroft_karp_matching(graph, tops)
    assert len(use.assignments) == len(matching) // 2


@pytest.mark.parametrize("seed", range(20))
def test_best_use_is_as_sound_as_the_linear_sum_assignment(seed):
    shop = uncoupled_shop(seed)
    # A fit counts for more than all probabilities together, so that as many are made as can be.
    worth = np.zeros((12, 12))
    for fit in shop.fits:
        worth[int(fit.piece[1:]), int(fit.place)] = 100 + fit.probability

    use = best_use(shop)

    rows, columns = linear_sum_assignment(worth, maximize=True)
    assert use.levels[2].value == pytest.approx(worth[rows, columns].sum() % 100)


def milp_levels(shop: Shop) -> list[float]:
    """Return the values of three levels, by the plain formulation and a second solver."""
    plain = PlainFormulation(shop)
    values = []
    for terms in plain.sums():
        cost = np.zeros(plain.width)
        cost[list(terms)] = [-value for value in terms.values()]
        matrix, lower, upper = plain.matrix()
        found = milp(
            cost,
            integrality=np.ones(plain.width),
            bounds=Bounds(0, 1),
            constraints=LinearConstraint(matrix, lower, upper),
            options={"mip_rel_gap": 0.0},
        )
        values.append(-found.fun)
        plain.row(terms, -found.fun - 1e-6, np.inf)
    return values


@pytest.mark.parametrize("seed", range(50))
def test_best_use_equals_the_plain_formulation_of_a_second_program(seed):
    shop = middle_shop(seed)

    use = best_use(shop)

    assert use.is_proven
    assert mates(shop, use.assignments)
    assert is_lawful(shop, use.assignments)
    assert [level.value for level in use.levels[:3]] == pytest.approx(milp_levels(shop), abs=1e-5)
