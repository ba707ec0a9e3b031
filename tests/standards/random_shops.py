"""Make random shops whose plans are compared with those of other methods."""

import random
from dataclasses import replace
from itertools import product

from catalog.reckoning.assignment import Fit, Mating, Piece, Place, Route, Shop

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


def making_shop(seed: int) -> Shop:
    """Return a random shop in which pieces can be made too, for some places or one vehicle."""
    shop, chance = small_shop(seed), random.Random(-1 - seed)
    places = shop.places[:5]
    kinds = {place.kind: place.component for place in places}
    vehicles = sorted({place.vehicle for place in places})
    routes = tuple(
        Route(
            component,
            chance.choice(("pattern", "drawing")),
            cost=chance.choice((1, 2, 3, 5)),
            limit=chance.choice((1, 2, len(places))),
            places=tuple(
                k for k in sorted(kinds) if kinds[k] == component and chance.random() < 2 / 3
            ),
            held_for=chance.choice([None, None, *vehicles]),
        )
        for component in chance.sample(COMPONENTS, chance.randint(1, 2))
    )
    return replace(
        shop,
        places=places,
        fits=tuple(fit for fit in shop.fits if fit.place in kinds),
        fixed={place.key: shop.fixed[place.key] for place in places if place.key in shop.fixed},
        routes=routes,
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
