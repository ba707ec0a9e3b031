"""How likely a reading is when the true size lies between limits, or could be almost anything."""

import math
from dataclasses import dataclass

from catalog.reckoning.limits import Limits
from catalog.reckoning.normal_tails import log_density, log_share_between

BROAD_LEAST_MM = 5.0
BROAD_GREATEST_MM = 5000.0
# How often a piece turns out to have a feature that its component lacks: a judgment,
# common practice without a source.
LACKING_SHARE = 0.02


@dataclass(frozen=True, slots=True)
class Spread:
    """Where a true size may lie: between two sizes, evenly by length or by proportion.

    Proportional means that 10 to 20 mm is as likely as 100 to 200 mm, which is the
    usual way of saying that nothing is known about a size but its kind.
    """

    least: float
    greatest: float
    is_proportional: bool


def spread(limits: Limits | None, *, holding: tuple[float, ...]) -> Spread:
    """Return where the true size lies under ``limits``, or broadly when there are none.

    Two limits give an even spread between them. An open side, or no limits at all, gives
    a proportional spread out to 5 or 5000 mm, stretched to hold every size in
    ``holding``, since no size is impossible for a thing unknown.

    >>> spread(None, holding=(64.1,))
    Spread(least=5.0, greatest=5000.0, is_proportional=True)
    """
    if limits is not None and limits.lower is not None and limits.upper is not None:
        return Spread(limits.lower, limits.upper, is_proportional=False)
    lower = limits.lower if limits is not None else None
    upper = limits.upper if limits is not None else None
    least, greatest = _least(lower, upper, holding), _greatest(lower, upper, holding)
    return Spread(least, greatest, is_proportional=True)


def log_reading_density(value: float, uncertainty: float, sizes: Spread) -> float:
    """Return the logarithm of the density of a reading when the true size is in ``sizes``.

    An even spread over [L, U] gives (Φ((U − y)/u) − Φ((L − y)/u)) / (U − L), after
    JCGM 106:2012 with a rectangular prior. A proportional one is taken as constant
    over the reading's own uncertainty, 1 / (y ln(U/L)), which is wrong by about (u/y)².

    >>> even = Spread(60.0, 70.0, is_proportional=False)
    >>> round(math.exp(log_reading_density(65.0, 0.5, even)), 6)
    0.1
    """
    low = (sizes.least - value) / uncertainty
    high = (sizes.greatest - value) / uncertainty
    # Limits that coincide, or that rounding cannot tell apart so far out, are one point.
    if low == high:
        return log_density(low) - math.log(uncertainty)
    return log_share_between(low, high) - math.log(_divisor(value, uncertainty, sizes))


def _divisor(value: float, uncertainty: float, sizes: Spread) -> float:
    if sizes.is_proportional:
        return max(value, uncertainty) * math.log(sizes.greatest / sizes.least)
    return sizes.greatest - sizes.least


def _least(lower: float | None, upper: float | None, holding: tuple[float, ...]) -> float:
    if lower is not None and lower > 0.0:
        return lower
    known = [BROAD_LEAST_MM, *(size / 2.0 for size in holding if size < BROAD_LEAST_MM)]
    return min(known if upper is None else [*known, upper / 10.0])


def _greatest(lower: float | None, upper: float | None, holding: tuple[float, ...]) -> float:
    if upper is not None:
        return upper
    known = [BROAD_GREATEST_MM, *(size * 2.0 for size in holding if size > BROAD_GREATEST_MM)]
    return max(known if lower is None else [*known, lower * 10.0])
