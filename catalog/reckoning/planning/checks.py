"""Refuse what cannot be planned, in words that name it."""

from collections import Counter
from dataclasses import replace

from catalog.reckoning.planning.facts import Fit, Piece, Shop


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
    """Return the shop with a lot of pieces to be had for each of its routes.

    A piece that is not there yet is no sound fit, so that one in hand is used before it.

    >>> with_routes(Shop((), (), ())).pieces
    ()
    """
    pieces, fits = list(shop.pieces), list(shop.fits)
    for number, route in enumerate(
        sorted(shop.routes, key=lambda r: (r.component, r.kind, r.cost))
    ):
        key = f"{route.kind} {route.component} {number}"
        pieces.append(
            Piece(key, route.component, route.limit, cost=route.cost, is_made_to_suit=True)
        )
        kinds = {place.kind for place in shop.places if place.component == route.component}
        fits += [Fit(key, kind, 0.0) for kind in kinds]
    return replace(shop, pieces=tuple(pieces), fits=tuple(fits), routes=())
