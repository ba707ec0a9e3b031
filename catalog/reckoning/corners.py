"""Which positions touch each other, as their codes say."""

import re
from functools import lru_cache

_AXLE = re.compile(r"A(\d+)")


@lru_cache(maxsize=10_000)
def corners(code: str) -> frozenset[str]:
    """Return the corners at which a position meets its neighbors.

    Positions with one code stand at one corner; an axle ``A1`` also reaches both of its ends,
    ``L1`` and ``R1``. Axles count from the brake end, L and R as seen facing it (common
    practice, no source).

    >>> sorted(corners("A1")), sorted(corners("L1"))
    (['A1', 'L1', 'R1'], ['L1'])
    """
    axle = _AXLE.fullmatch(code)
    return frozenset({code, f"L{axle[1]}", f"R{axle[1]}"} if axle else {code})
