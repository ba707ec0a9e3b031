"""Check the planner against exhaustion and against other solvers."""

import random
from itertools import product

import pytest

from catalog.reckoning.assignment import Fit, Mating, Piece, Place, Shop, best_use
from catalog.reckoning.planning.measures import Measures

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
