"""Turn the order of vehicles into sums that serve the first before all others."""

from collections import Counter
from collections.abc import Mapping

from catalog.reckoning.planning.facts import Shop

# Weights beyond this would drown in the tolerances of a solver that reckons in floats.
MOST = 1 << 12

# The factor of each rank within one sum.
Stack = Mapping[int, int]


def stacks(shop: Shop) -> list[Stack]:
    """Return the ranks in sums to be maximized one after another, the first first.

    In each sum a rank counts for more than all lower ones of that sum together, so that several
    ranks are settled at once. Method: weights in a mixed radix.

    >>> from catalog.reckoning.planning.facts import Place, strict_order
    >>> hooks = tuple(Place(v, v, "hook", is_essential=True) for v in "abc")
    >>> stacks(Shop(hooks, (), (), ranks=strict_order("abc")))
    [{2: 1, 1: 2, 0: 4}]
    """
    totals: Counter[int] = Counter()
    for vehicle in shop.vehicles:
        totals[shop.ranks.get(vehicle, 0)] += shop.weights.get(vehicle, 1)
    found: list[Stack] = []
    ranks = sorted(totals)
    while ranks:
        count = next((n for n in range(len(ranks), 1, -1) if _span(totals, ranks[:n]) <= MOST), 1)
        found.append(_stack(totals, ranks[:count]))
        ranks = ranks[count:]
    return found


def _span(totals: Mapping[int, int], ranks: list[int]) -> int:
    span = 1
    for rank in ranks:
        span *= totals[rank] + 1
    return span


def _stack(totals: Mapping[int, int], ranks: list[int]) -> Stack:
    return {
        rank: _span(totals, ranks[position + 1 :])
        for position, rank in reversed(list(enumerate(ranks)))
    }
