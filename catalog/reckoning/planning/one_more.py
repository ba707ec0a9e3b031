"""Say what more pieces would change, by solving again with them."""

import time
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace

from catalog.reckoning.planning.checks import checked
from catalog.reckoning.planning.facts import Fit, Piece, Shop
from catalog.reckoning.planning.frames import read_frames
from catalog.reckoning.planning.lots import free_quantities, gather_lots
from catalog.reckoning.planning.measures import Measures, essential_part
from catalog.reckoning.planning.models import Model
from catalog.reckoning.planning.programs import Solution, whole_part
from catalog.reckoning.planning.sizes import read_sizes
from catalog.reckoning.planning.unfolding import Plan, unfold


@dataclass(frozen=True, slots=True)
class OneMore:
    """Hold how many more vehicles one, two, and more pieces of a component would complete.

    >>> OneMore("drawhead", (1, 1), True).gains[0]
    1
    """

    component: str
    gains: tuple[int, ...]
    is_proven: bool


@dataclass(frozen=True, slots=True)
class ShoppingList:
    """Hold the fewest pieces that complete the next vehicle, and where they would go.

    ``completes`` lists all vehicles complete once they are in; ``bound`` is what no list could
    fall below.

    >>> ShoppingList({"drawhead": 1}, {"31/hook": "drawhead"}, ("31",), 1, True).length
    1
    """

    pieces: Mapping[str, int]
    places: Mapping[str, str]
    completes: tuple[str, ...]
    bound: int
    is_proven: bool

    @property
    def length(self) -> int:
        """Return the number of pieces on the list."""
        return sum(self.pieces.values())


def one_more(shop: Shop, *, most: int = 2, seconds: float = 5.0) -> tuple[OneMore, ...]:
    """Return, for each component, what one piece more, and up to ``most`` more, would complete.

    The new piece suits any place of its component, in the size its neighbors there have. All
    vehicles count alike. Components come in order of what one piece gains, then two.

    >>> from catalog.reckoning.planning.facts import Place
    >>> one_more(Shop((Place("31/hook", "31", "hook", is_essential=True),), (), ()))
    (OneMore(component='hook', gains=(1, 1), is_proven=True),)
    """
    market = _Market(shop, seconds)
    now = market.most_complete({})
    found = [market.gains(component, now, most) for component in market.components]
    return tuple(sorted(found, key=lambda each: [-gain for gain in each.gains]))


def shortest_shopping_list(
    shop: Shop, *, vehicle: str | None = None, seconds: float = 5.0
) -> ShoppingList | None:
    """Return the fewest pieces that complete one vehicle more.

    Nothing comes back when no vehicle is left to complete, or no list is found in time.

    Where a ``vehicle`` is named, the list completes that one, without taking from the others
    what completes as many of them as can be.

    >>> from catalog.reckoning.planning.facts import Place
    >>> shop = Shop((Place("31/hook", "31", "hook", is_essential=True),), (), ())
    >>> shortest_shopping_list(shop).pieces
    {'hook': 1}
    """
    return _Market(shop, seconds, vehicle).shortest_list()


class _Market:
    """Hold a shop in which any component can be had, as many as a row allows."""

    def __init__(self, shop: Shop, seconds: float, vehicle: str | None = None):
        shop = essential_part(replace(shop, routes=()))
        # A rank of its own keeps the vehicle from merging with others that lack the same.
        own_rank = {} if vehicle is None else {vehicle: -1}
        shop = checked(_with_new_pieces(replace(shop, ranks=own_rank)))
        self._shop, self._vehicle, self._deadline = shop, vehicle, time.monotonic() + seconds
        self._sizes = read_sizes(shop)
        frames = read_frames(shop, self._sizes).values()
        lots = gather_lots(shop, self._sizes, is_fine=False)
        self._model = Model(shop, self._sizes, frames, lots).build(allows_partial=False)
        pieces = {piece.key: piece for piece in shop.pieces}
        self._lots = {
            pieces[lot.pieces[0]].component: number
            for number, lot in enumerate(lots)
            if lot.pieces[0].startswith(_NEW)
        }
        self._all = {group.complete: 1.0 for group in self._model.groups}

    @property
    def components(self) -> tuple[str, ...]:
        """Return the components of which a piece could be wanted."""
        return tuple(sorted(self._lots))

    def most_complete(self, supply: Mapping[str, int]) -> Solution:
        """Return the most complete vehicles with so many new pieces of each component."""
        self._supply(supply)
        others = {group.complete: 1.0 for group in self._model.groups if group.rank == 0}
        return self._maximize(self._all if self._vehicle is None else others)

    def gains(self, component: str, now: Solution, most: int) -> OneMore:
        """Return what up to ``most`` pieces of a component would complete."""
        last = self.most_complete({component: most})
        solutions = [last]
        if whole_part(last.value) > whole_part(now.value):
            solutions = [self.most_complete({component: n}) for n in range(1, most)] + [last]
        gains = [max(0, whole_part(s.value) - whole_part(now.value)) for s in solutions]
        is_proven = now.is_proven and all(s.is_proven for s in solutions)
        return OneMore(component, tuple(gains) if len(gains) == most else (0,) * most, is_proven)

    def shortest_list(self) -> ShoppingList | None:
        """Return the fewest new pieces that complete one vehicle more."""
        now = self.most_complete({})
        program, wanted = self._model.program, whole_part(now.value)
        own = {g.complete: 1.0 for g in self._model.groups if g.rank < 0 and not g.frame.is_full}
        others = {column: 1.0 for column in self._all if column not in own}
        if self._vehicle is not None:
            program.row(own, lower=1)
            program.row(others, lower=wanted)
        else:
            program.row(self._all, lower=wanted + 1)
        self._supply(Counter(place.component for place in self._shop.places))
        flows = self._model.flows.items()
        new = {column for (lot, _), column in flows if lot in self._lots.values()}
        buying = dict.fromkeys(new, -1.0)
        solution = self._maximize(buying)
        found = solution.values
        values = None if found is None else program.at_vertex(buying, found)
        if values is None:
            return None
        plan = unfold(self._model, values, free_quantities(self._shop))
        is_proven = now.is_proven and solution.is_proven
        return self._list(plan, -whole_part(solution.bound), is_proven=is_proven)

    def _list(self, plan: Plan, bound: int, *, is_proven: bool) -> ShoppingList:
        component_of = {place.key: place.component for place in self._shop.places}
        bought = {p: component_of[p] for p, piece in sorted(plan.items()) if piece.startswith(_NEW)}
        complete = Measures(self._shop).complete(plan)
        return ShoppingList(dict(Counter(bought.values())), bought, complete, bound, is_proven)

    def _supply(self, supply: Mapping[str, int]) -> None:
        for component, lot in self._lots.items():
            self._model.limit_lot(lot, supply.get(component, 0))

    def _maximize(self, terms: Mapping[int, float]) -> Solution:
        return self._model.program.maximize(terms, seconds=self._deadline - time.monotonic())


# No piece in hand has a key that begins so.
_NEW = "\x00new "


def _with_new_pieces(shop: Shop) -> Shop:
    kinds = {place.kind: place.component for place in shop.places if place.key not in shop.fixed}
    places = Counter(place.component for place in shop.places)
    pieces = [
        Piece(_NEW + name, name, places[name], is_made_to_suit=True)
        for name in sorted(set(kinds.values()))
    ]
    fits = [Fit(_NEW + component, kind, 1.0) for kind, component in kinds.items()]
    return replace(shop, pieces=(*shop.pieces, *pieces), fits=(*shop.fits, *fits))
