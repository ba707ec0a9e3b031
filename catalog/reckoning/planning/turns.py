"""Take vehicles in turns, so that a plan too large to be solved at once is improved in parts.

A search of this kind is known as a large neighborhood search (Shaw 1998, from memory).
"""

from collections.abc import Collection, Iterator, Sequence
from math import ceil
from random import Random

# So many vehicles are solved to the end within a second, measured with forty places on each.
FEW = 20


def turns_of(vehicles: Sequence[str], size: int, turn: int) -> Iterator[Collection[str]]:
    """Yield all vehicles in sets of ``size`` or a little less, mixed anew at each ``turn``.

    The same turn always mixes alike.

    >>> [len(some) for some in turns_of(["14", "22", "31", "3"], 3, 0)]
    [2, 2]
    """
    mixed = list(vehicles)
    # A shuffle without any secret.
    Random(turn).shuffle(mixed)  # noqa: S311
    sets = ceil(len(mixed) / size)
    for number in range(sets):
        yield frozenset(mixed[number::sets])
