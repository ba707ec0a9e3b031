"""Check the planner against exhaustion and against other solvers."""

import random
from itertools import product

import networkx as nx
import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, linear_sum_assignment, milp

from catalog.reckoning.assignment import Fit, Mating, Piece, Place, Shop, best_use
from catalog.reckoning.planning.measures import Measures
from tests.benchmarks.plain_formulation import PlainFormulation

COMPONENTS = ("axle", "brass", "box")


def small_shop(seed: int) -> Shop:
    """Return a random shop with so few places that every plan can be tried."""
    chance = random.Random(seed)
    places = [
        Place(
            f"{vehicle}/{component}{end}",
            f"v{vehicle}",
            component,
            is_essential=chance.random() < 0.8,
            corner="L R" if component == "axle" else end,
            specification=component if chance.random() < 0.5 else "",
        )
        for vehicle in range(chance.randint(1, 3))
        for component, end in chance.sample(
            [("axle", ""), ("brass", "L"), ("brass", "R"), ("box", "L"), ("box", "R")],
            chance.randint(1, 3),
        )
    ][:6]
    vehicles = sorted({place.vehicle for place in places})
    pieces = [
        Piece(
            f"p{number}",
            chance.choice(COMPONENTS),
            quantity=chance.choice((1, 1, 1, 2)),
            came_off=chance.choice([None, *vehicles]),
            held_for=chance.choice([None] * 4 + vehicles),
            cost=chance.choice((0, 0, 0, 1, 2)),
        )
        for number in range(chance.randint(1, 5))
    ]
    fits = tuple(
        Fit(piece.key, kind, chance.choice((0.5, 0.75, 0.9, 1.0)))
        for piece in pieces
        for kind in sorted({p.kind for p in places if p.component == piece.component})
        if chance.random() < 0.85
    )
    fixed = {}
    if chance.random() < 0.3:
        fit = chance.choice(fits) if fits else None
        for place in places:
            if fit and place.kind == fit.place:
                fixed[place.key] = fit.piece
                break
    return Shop(
        tuple(places),
        tuple(pieces),
        fits,
        matings=tuple(random_matings(chance, pieces)),
        fixed=fixed,
        ranks={v: chance.randint(0, 1) for v in vehicles} if chance.random() < 0.3 else {},
        weights={v: chance.randint(1, 3) for v in vehicles} if chance.random() < 0.3 else {},
    )


def random_matings(chance: random.Random, pieces: list[Piece]):
    """Yield rules by size, or pair by pair, or none."""
    sizes = {piece.key: chance.choice(("4x8", "5x9")) for piece in pieces if chance.random() < 0.9}
    by_size = chance.random() < 0.6
    for first, second in (("axle", "brass"), ("brass", "box")):
        if by_size:
            yield Mating.by_size(first, second, sizes)
        else:
            keys = [piece.key for piece in pieces]
            pairs = [pair for pair in product(keys, keys) if chance.random() < 0.4]
            yield Mating(first, second, frozenset(pairs))


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


def mates(shop: Shop, plan: dict[str, str]) -> bool:
    """Say whether no two pieces that touch, one of them planned, clash under a rule."""
    held = {**shop.fixed, **plan}
    for rule, a, b in product(shop.matings, shop.places, shop.places):
        touch = a.vehicle == b.vehicle and set(a.corner.split()) & set(b.corner.split())
        under = (a.component, b.component) == (rule.component_a, rule.component_b)
        planned = a.key in plan or b.key in plan
        if a.key != b.key and touch and under and planned and a.key in held and b.key in held:
            i, j = held[a.key], held[b.key]
            if (rule.size_of.get(i, i), rule.size_of.get(j, j)) in rule.conflicts:
                return False
    return True


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
        best = max(objective(shop, plan) for plan in all_plans(shop))
        assert objective(shop, use.assignments) == best, seed


def uncoupled_shop(seed: int) -> Shop:
    """Return a random shop without matings, every place a vehicle of its own."""
    chance = random.Random(seed)
    places = [Place(f"{n:02}", f"v{n:02}", "hook", is_essential=True) for n in range(12)]
    pieces = [Piece(f"p{n:02}", "hook") for n in range(12)]
    fits = [
        Fit(piece.key, place.key, chance.randint(1, 1000) / 1000)
        for piece, place in product(pieces, places)
        if chance.random() < 0.2
    ]
    return Shop(tuple(places), tuple(pieces), tuple(fits))


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


def middle_shop(seed: int) -> Shop:
    """Return a shop too large to try all plans, whose sizes are scarce, or no sizes at all."""
    chance = random.Random(seed)
    ends = [("axle", "L R"), ("brass", "L"), ("brass", "R"), ("box", "L"), ("box", "R")]
    places = tuple(
        Place(
            f"{v}/{n}/{component}/{corner}",
            f"v{v}",
            component,
            is_essential=component != "box" or corner == "L",
            corner=" ".join(f"{end}{n}" for end in corner.split()),
            specification=f"{v % 2} {component}",
        )
        for v, n, (component, corner) in product(range(3), range(2), ends)
    )
    counts = {"axle": 6, "brass": 12, "box": 12}
    pieces = [Piece(f"{c}{n}", c) for c, count in counts.items() for n in range(count)]
    fits = tuple(
        Fit(piece.key, f"{design} {piece.component}", chance.randint(500, 1000) / 1000)
        for piece, design in product(pieces, range(2))
        if chance.random() < 0.7
    )
    return Shop(places, tuple(pieces), fits, tuple(random_matings(chance, pieces)))


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
    assert [level.value for level in use.levels[:3]] == pytest.approx(milp_levels(shop), abs=1e-5)
