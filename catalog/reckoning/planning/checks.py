"""Refuse what cannot be planned, in words that name it."""

from collections import Counter
from dataclasses import replace

from catalog.reckoning.planning.facts import Fit, Piece, Route, Shop


class PlanningError(ValueError):
    """Say what in the facts contradicts itself."""


def checked(shop: Shop) -> Shop:
    """Return the shop with its facts in a set order, or refuse it.

    >>> checked(Shop((), (), (Fit("a", "31/hook", 1.0),)))
    Traceback (most recent call last):
    catalog.reckoning.planning.checks.PlanningError: a fit names piece 'a', which is not in hand
    """
    _refuse_twice("place", [place.key for place in shop.places])
    _refuse_twice("piece", [piece.key for piece in shop.pieces])
    _refuse_unknown(shop)
    return replace(
        shop,
        places=tuple(sorted(shop.places, key=lambda place: place.key)),
        pieces=tuple(sorted(shop.pieces, key=lambda piece: piece.key)),
        fits=tuple(sorted(shop.fits, key=lambda fit: (fit.piece, fit.place))),
    )


def _refuse_twice(word: str, keys: list[str]) -> None:
    twice = sorted(key for key, count in Counter(keys).items() if count > 1)
    if twice:
        raise PlanningError(f"{word} {twice[0]!r} is listed twice")


def _refuse_unknown(shop: Shop) -> None:
    pieces = {piece.key for piece in shop.pieces}
    kinds = {place.kind: place.component for place in shop.places}
    for fit in shop.fits:
        if fit.piece not in pieces:
            raise PlanningError(f"a fit names piece {fit.piece!r}, which is not in hand")
        if fit.place not in kinds:
            raise PlanningError(f"a fit names place {fit.place!r}, which no vehicle has")
    for place in shop.places:
        if kinds[place.kind] != place.component:
            raise PlanningError(f"specification {place.kind!r} is for two components")
    keys = {place.key for place in shop.places}
    unknown = sorted(set(shop.fixed) - keys)
    if unknown:
        raise PlanningError(f"a piece is fixed at {unknown[0]!r}, which no vehicle has")


def with_routes(shop: Shop) -> Shop:
    """Return the shop with one lot of pieces to be had for each of its routes.

    Nobody has measured a piece that is not there yet, so that it counts as no sound fit, and
    whatever is in hand and may fit is used before it. It is made to suit what it will touch: no
    rule of mating speaks against it.

    >>> (new,) = with_routes(Shop((), (), (), routes=(Route("hook", "make", 180, 2),))).pieces
    >>> new.key, new.quantity, new.cost
    ('make hook 0', 2, 180)
    """
    pieces, fits = list(shop.pieces), list(shop.fits)
    for number, route in enumerate(sorted(shop.routes, key=_in_order)):
        key = route.key if route.way else f"{route.key} {number}"
        pieces.append(
            Piece(key, route.component, route.limit, held_for=route.held_for, cost=route.cost)
        )
        kinds = {place.kind for place in shop.places if place.component == route.component}
        fits += [Fit(key, kind, 0.0) for kind in sorted(kinds.intersection(route.places or kinds))]
    return replace(shop, pieces=tuple(pieces), fits=tuple(fits), routes=())


def _in_order(route: Route) -> tuple[object, ...]:
    return (
        *(route.component, route.kind, route.held_for or "", route.cost, route.places),
        route.way,
    )
