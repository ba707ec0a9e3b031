"""Make a fair plan at once, for when the time for a proven one runs out."""

from collections import defaultdict
from collections.abc import Iterable, Iterator

from catalog.reckoning.planning.facts import Place, Shop
from catalog.reckoning.planning.lots import free_quantities
from catalog.reckoning.planning.sizes import Sizes

Plan = dict[str, str]


def quick_plan(shop: Shop, sizes: Sizes) -> Plan:
    """Return a plan that completes vehicles one by one in their order, then fills what it can.

    Pieces that fit the fewest kinds of place are used first. A vehicle that turns out not to be
    completable gives its pieces back, so that later ones may have them.

    >>> from catalog.reckoning.planning.facts import Fit, Piece
    >>> from catalog.reckoning.planning.sizes import read_sizes
    >>> shop = Shop((Place("31/hook", "31", "hook", is_essential=True),), (Piece("a", "hook"),),
    ...             (Fit("a", "31/hook", 0.9),))
    >>> quick_plan(shop, read_sizes(shop))
    {'31/hook': 'a'}
    """
    return _Dealing(shop, sizes).plan()


class _Dealing:
    """Deal pieces out, remembering how many are left."""

    def __init__(self, shop: Shop, sizes: Sizes):
        self._shop, self._sizes = shop, sizes
        self._free = free_quantities(shop)
        self._held_for = {piece.key: piece.held_for for piece in shop.pieces}
        self._candidates = _candidates(shop)
        self._at_corner: dict[tuple[str, str], list[Place]] = defaultdict(list)
        for place in shop.places:
            for corner in place.corner.split():
                self._at_corner[place.vehicle, corner].append(place)
        self._held: Plan = dict(shop.fixed)

    def plan(self) -> Plan:
        wanted: dict[str, list[Place]] = defaultdict(list)
        for place in self._shop.places:
            if place.key not in self._held:
                wanted[place.vehicle].append(place)
        for vehicle in self._shop.vehicles:
            essential = [place for place in wanted[vehicle] if place.is_essential]
            filled = self._fill(essential)
            if len(filled) < len(essential):
                self._give_back(filled)
        for vehicle in self._shop.vehicles:
            self._fill(place for place in wanted[vehicle] if place.key not in self._held)
        return {place: p for place, p in self._held.items() if place not in self._shop.fixed}

    def _fill(self, places: Iterable[Place]) -> list[str]:
        filled = []
        for place in places:
            piece = next(self._usable(place), None)
            if piece is not None:
                self._held[place.key] = piece
                self._free[piece] -= 1
                filled.append(place.key)
        return filled

    def _give_back(self, places: Iterable[str]) -> None:
        for place in places:
            self._free[self._held.pop(place)] += 1

    def _usable(self, place: Place) -> Iterator[str]:
        for piece in self._candidates[place.kind]:
            is_ours = self._held_for[piece] in (None, place.vehicle)
            if self._free[piece] > 0 and is_ours and self._mates(place, piece):
                yield piece

    def _mates(self, place: Place, piece: str) -> bool:
        size = self._sizes.of(piece, place.component)
        return all(
            self._sizes.may_touch(
                place.component,
                size,
                other.component,
                self._sizes.of(self._held[other.key], other.component),
            )
            for corner in place.corner.split()
            for other in self._at_corner[place.vehicle, corner]
            if other.key in self._held
        )


def _candidates(shop: Shop) -> dict[str, list[str]]:
    """Return the pieces for each kind of place, the least useful elsewhere first."""
    uses: dict[str, int] = defaultdict(int)
    for fit in shop.fits:
        uses[fit.piece] += 1
    candidates: dict[str, list[str]] = defaultdict(list)
    for fit in sorted(shop.fits, key=lambda fit: (uses[fit.piece], -fit.probability, fit.piece)):
        candidates[fit.place].append(fit.piece)
    return candidates
