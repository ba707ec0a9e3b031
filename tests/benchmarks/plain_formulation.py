"""State a plan plainly: one variable a part and position, one row a pair that does not mate."""

from collections import defaultdict
from itertools import combinations

import numpy as np
from scipy.sparse import csr_array

from catalog.reckoning.assignment import Shop


class PlainFormulation:
    """Hold the columns, rows, and sums of a shop in which nothing is fixed or held."""

    def __init__(self, shop: Shop):
        self.shop = shop
        self._entries: list[tuple[int, int, float]] = []
        self._limits: list[tuple[float, float]] = []
        places_of = defaultdict(list)
        for place in shop.places:
            places_of[place.kind].append(place)
        self.column: dict[tuple[str, str], int] = {}
        self.probability: list[float] = []
        for fit in shop.fits:
            for place in places_of[fit.place]:
                self.column[fit.piece, place.key] = len(self.column)
                self.probability.append(round(fit.probability, 3))
        self.complete = {v: len(self.column) + n for n, v in enumerate(shop.vehicles)}
        self.width = len(self.column) + len(self.complete)
        self._add_pieces_and_places()
        self._add_pairs()

    def row(self, terms: dict[int, float], lower: float, upper: float) -> None:
        """Keep a sum between limits."""
        self._entries += [(len(self._limits), column, value) for column, value in terms.items()]
        self._limits.append((lower, upper))

    def matrix(self) -> tuple[csr_array, np.ndarray, np.ndarray]:
        """Return the rows with their lower and upper limits."""
        rows, columns, values = zip(*self._entries, strict=True)
        shape = (len(self._limits), self.width)
        lower, upper = (np.array(limits) for limits in zip(*self._limits, strict=True))
        return csr_array((values, (rows, columns)), shape=shape), lower, upper

    def sums(self) -> list[dict[int, float]]:
        """Return complete vehicles, essential places filled, and expected sound fits."""
        essential = {place.key for place in self.shop.places if place.is_essential}
        return [
            dict.fromkeys(self.complete.values(), 1.0),
            {column: 1.0 for (_, place), column in self.column.items() if place in essential},
            dict(enumerate(self.probability)),
        ]

    def _add_pieces_and_places(self) -> None:
        by_piece: dict[str, dict[int, float]] = defaultdict(dict)
        by_place: dict[str, dict[int, float]] = defaultdict(dict)
        for (piece_key, place_key), column in self.column.items():
            by_piece[piece_key][column] = by_place[place_key][column] = 1.0
        for piece in self.shop.pieces:
            self.row(by_piece[piece.key], 0, piece.quantity)
        for place in self.shop.places:
            self.row(by_place[place.key], 0, 1)
            if place.is_essential:
                self.row({**by_place[place.key], self.complete[place.vehicle]: -1.0}, 0, np.inf)

    def _add_pairs(self) -> None:
        pieces_at = defaultdict(list)
        for piece, place in self.column:
            pieces_at[place].append(piece)
        for a, b, rule in _touching(self.shop):
            for i in pieces_at[a]:
                for j in pieces_at[b]:
                    if (rule.size_of.get(i, i), rule.size_of.get(j, j)) in rule.conflicts:
                        self.row({self.column[i, a]: 1.0, self.column[j, b]: 1.0}, 0, 1)


def _touching(shop: Shop):
    """Yield two places that share a corner, in the order of the rule between them."""
    at = defaultdict(set)
    for place in shop.places:
        for corner in place.corner.split():
            at[place.vehicle, corner].add(place)
    rules = {(rule.component_a, rule.component_b): rule for rule in shop.matings}
    for neighbors in at.values():
        for one, other in combinations(sorted(neighbors, key=lambda p: p.key), 2):
            for a, b in ((one, other), (other, one)):
                if (a.component, b.component) in rules:
                    yield a.key, b.key, rules[a.component, b.component]
