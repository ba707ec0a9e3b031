"""Make a fair plan at once, for when the time for a proven one runs out."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator

from catalog.reckoning.planning.facts import Fit, Place, Shop
from catalog.reckoning.planning.lots import free_quantities
from catalog.reckoning.planning.sizes import ANY, Sizes
from catalog.reckoning.planning.unions import joined

Plan = dict[str, str]

# How many sizes are tried where places touch, so that odd rules of mating take no longer.
MOST_SIZES = 8


def quick_plan(shop: Shop, sizes: Sizes) -> Plan:
    """Return a plan that completes vehicles one by one in their order, then fills what it can.

    Pieces that fit the fewest kinds of place are used first. A vehicle that turns out not to be
    completable gives its pieces back, so that later ones may have them.

    >>> from catalog.reckoning.planning.facts import Piece
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
        self._group_of = _groups_of_touching(shop)

    def plan(self) -> Plan:
        wanted: dict[str, list[Place]] = defaultdict(list)
        for place in self._shop.places:
            if place.key not in self._held:
                wanted[place.vehicle].append(place)
        for vehicle in self._shop.vehicles:
            self._complete([place for place in wanted[vehicle] if place.is_essential])
        for vehicle in self._shop.vehicles:
            self._fill(place for place in wanted[vehicle] if place.key not in self._held)
        return {place: p for place, p in self._held.items() if place not in self._shop.fixed}

    def _complete(self, places: list[Place]) -> None:
        """Fill all of these places, those that touch in one size, or none of them."""
        groups: dict[str, list[Place]] = defaultdict(list)
        for place in places:
            groups[self._group_of[place.key]].append(place)
        for group in groups.values():
            sizes = self._sizes_by_plenty(group)
            if not any(self._fill_wholly(group, size) for size in sizes):
                self._give_back(place.key for place in places if place.key in self._held)
                return

    def _fill_wholly(self, places: list[Place], size: str | None) -> bool:
        self._fill(places, size)
        filled = [place.key for place in places if place.key in self._held]
        if len(filled) < len(places):
            self._give_back(filled)
        return len(filled) == len(places)

    def _sizes_by_plenty(self, group: list[Place]) -> list[str | None]:
        """Return the sizes to try, that of most pieces left first, and last any mixture."""
        plenty: Counter[str] = Counter()
        if len(group) > 1:
            for piece in self._candidates[group[0].kind]:
                plenty[self._sizes.of(piece, group[0].component)] += self._free[piece]
        return [*(size for size, _ in plenty.most_common(MOST_SIZES)), None]

    def _fill(self, places: Iterable[Place], size: str | None = None) -> None:
        for place in places:
            piece = next(self._usable(place, size), None)
            if piece is not None:
                self._held[place.key] = piece
                self._free[piece] -= 1

    def _give_back(self, places: Iterable[str]) -> None:
        for place in places:
            self._free[self._held.pop(place)] += 1

    def _usable(self, place: Place, size: str | None) -> Iterator[str]:
        for piece in self._candidates[place.kind]:
            is_ours = self._held_for[piece] in (None, place.vehicle)
            own_size = self._sizes.of(piece, place.component)
            is_wanted = size is None or own_size in (size, ANY)
            if self._free[piece] > 0 and is_ours and is_wanted and self._mates(place, own_size):
                yield piece

    def _mates(self, place: Place, size: str) -> bool:
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


def _groups_of_touching(shop: Shop) -> dict[str, str]:
    """Return for each place a name that it shares with all that touch it, however remotely."""
    ends = [(f"{p.vehicle} corner {c}", p.key) for p in shop.places for c in p.corner.split()]
    return joined([*ends, *((place.key, place.key) for place in shop.places)])


def _candidates(shop: Shop) -> dict[str, list[str]]:
    """Return the pieces for each kind of place, the least useful elsewhere first.

    What is no sound fit, since it is not made yet, comes last.
    """
    uses: dict[str, int] = defaultdict(int)
    for fit in shop.fits:
        uses[fit.piece] += 1
    candidates: dict[str, list[str]] = defaultdict(list)

    def usefulness(fit: Fit) -> tuple[object, ...]:
        return (not fit.probability, uses[fit.piece], -fit.probability, fit.piece)

    for fit in sorted(shop.fits, key=usefulness):
        candidates[fit.place].append(fit.piece)
    return candidates
