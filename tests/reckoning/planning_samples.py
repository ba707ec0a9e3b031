"""Make small shops whose best plan can be seen at a glance."""

from collections import Counter
from itertools import product

from catalog.reckoning.assignment import Fit, Mating, Piece, Place, Shop

WAGONS = ("14", "22", "31")


def wagon_places(vehicle: str) -> tuple[Place, ...]:
    """Return two drawheads and a lid, which a wagon can do without."""
    return (
        Place(f"{vehicle}/D1", vehicle, "drawhead", is_essential=True, specification="drawhead"),
        Place(f"{vehicle}/D2", vehicle, "drawhead", is_essential=True, specification="drawhead"),
        Place(f"{vehicle}/lid", vehicle, "lid", is_essential=False, specification="lid"),
    )


def wagons(*pieces: Piece, **facts) -> Shop:
    """Return three wagons and pieces that each fit wherever their component goes."""
    places = tuple(place for vehicle in WAGONS for place in wagon_places(vehicle))
    fits = tuple(Fit(piece.key, piece.component, 0.9) for piece in pieces)
    return Shop(places, pieces, fits, **facts)


def axle(*pieces: Piece, matings: tuple[Mating, ...], fixed=None) -> Shop:
    """Return one axle with a brass at either end."""
    places = (
        Place("14/A1", "14", "axle", is_essential=True, corner="L1 R1", specification="axle"),
        Place("14/L1", "14", "brass", is_essential=True, corner="L1", specification="brass"),
        Place("14/R1", "14", "brass", is_essential=True, corner="R1", specification="brass"),
    )
    fits = tuple(Fit(piece.key, piece.component, 0.9) for piece in pieces)
    return Shop(places, pieces, fits, matings, fixed or {})


def mates(shop: Shop, plan: dict[str, str]) -> bool:
    """Say whether no two pieces that touch, one of them planned, clash under a rule."""
    held = {**shop.fixed, **plan}
    for rule, a, b in product(shop.matings, shop.places, shop.places):
        touch = a.vehicle == b.vehicle and set(a.corner.split()) & set(b.corner.split())
        under = (a.component, b.component) == (rule.component_a, rule.component_b)
        is_planned = a.key in plan or b.key in plan
        if a.key != b.key and touch and under and is_planned and {a.key, b.key} <= held.keys():
            i, j = held[a.key], held[b.key]
            if (rule.size_of.get(i, i), rule.size_of.get(j, j)) in rule.conflicts:
                return False
    return True


def is_lawful(shop: Shop, assignments: dict[str, str]) -> bool:
    """Say whether each piece fits where it goes, for whom it is held, and no oftener than it is."""
    places = {place.key: place for place in shop.places}
    pieces = {piece.key: piece for piece in shop.pieces}
    fits = {(fit.piece, fit.place) for fit in shop.fits}
    used = Counter([*assignments.values(), *shop.fixed.values()])
    return (
        not assignments.keys() & shop.fixed.keys()
        and all((piece, places[key].kind) in fits for key, piece in assignments.items())
        and all(
            pieces[piece].held_for in (None, places[key].vehicle)
            for key, piece in assignments.items()
        )
        and all(used[piece] <= pieces[piece].quantity for piece in assignments.values())
    )
