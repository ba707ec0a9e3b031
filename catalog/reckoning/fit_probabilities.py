"""The probability that a measured value, or a clearance, lies within its limits."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from catalog.reckoning.normal_tails import log_share_between
from catalog.reckoning.uncertainty import Measured, UncertaintyError, check_uncertainty


class LimitsError(ValueError):
    """Limits that no value can be held against; the message says what is needed."""


@dataclass(frozen=True, slots=True)
class JointProbability:
    """The probability that several conditions hold at once.

    ``product`` takes them as independent; the bounds hold however they depend on each other.
    """

    product: float
    lower_bound: float
    upper_bound: float


def conformance_probability(
    value: float, uncertainty: float, *, lower: float | None = None, upper: float | None = None
) -> float:
    """Return the probability that the true value lies between the limits.

    Φ((U−y)/u) − Φ((L−y)/u), the error taken as normal; a limit left out drops its term
    (JCGM 106, 7.4 and 7.5, clauses from memory). Below 10⁻³⁰⁰ it goes down to zero in order;
    where zeros must still be told apart, use ``log_conformance_probability``.

    >>> round(conformance_probability(13.6, 1.8, lower=12.5, upper=16.3), 6)
    0.66263
    """
    return math.exp(log_conformance_probability(value, uncertainty, lower=lower, upper=upper))


def log_conformance_probability(
    value: float, uncertainty: float, *, lower: float | None = None, upper: float | None = None
) -> float:
    """Return the natural logarithm of the conformance probability, finite in the far tails.

    Equal limits leave no room at all, and the answer is minus infinity.

    >>> round(log_conformance_probability(0.0, 1.0, lower=100.0), 3)
    -5005.524
    """
    check_limits(lower, upper)
    if lower is None and upper is None:
        raise LimitsError("There is no limit to hold the value against: give at least one.")
    measured = Measured(value, uncertainty)
    if lower is not None and lower == upper:
        return -math.inf
    low = -math.inf if lower is None else (lower - measured.value) / measured.uncertainty
    high = math.inf if upper is None else (upper - measured.value) / measured.uncertainty
    # Rounding can close a narrow gap that is very far away, and no share is left to tell.
    return min(0.0, log_share_between(low, high)) if low < high else -math.inf


def clearance(inner: Measured, outer: Measured) -> Measured:
    """Return the clearance of ``inner`` within ``outer``, their errors taken as independent.

    >>> str(clearance(Measured(101.6, 0.03), Measured(101.73, 0.04)))
    '0.13 ± 0.05 mm'
    """
    return Measured(outer.value - inner.value, math.hypot(inner.uncertainty, outer.uncertainty))


def clearance_probability(
    inner: Measured, outer: Measured, *, least: float | None, greatest: float | None
) -> float:
    """Return the probability that the clearance of a mating pair lies between its limits.

    >>> pin, bore = Measured(101.6, 0.0508), Measured(101.727, 0.0508)
    >>> round(clearance_probability(pin, bore, least=0, greatest=25.4 * 3 / 32), 4)
    0.9615
    """
    gap = clearance(inner, outer)
    return conformance_probability(gap.value, gap.uncertainty, lower=least, upper=greatest)


def best_probability(
    uncertainty: float, *, lower: float | None = None, upper: float | None = None
) -> float:
    """Return the highest probability that this uncertainty could ever show between the limits.

    It is reached in the middle. Where it stays below what a verdict asks, the instrument is too
    coarse for the fit, however good the piece.

    >>> round(best_probability(0.648, lower=0, upper=2.38125), 3)
    0.934
    """
    if lower is None or upper is None:
        check_uncertainty(uncertainty)
        return 1.0
    middle = lower + 0.5 * (upper - lower)
    return conformance_probability(middle, uncertainty, lower=lower, upper=upper)


def joint_probability(ps: Iterable[float]) -> JointProbability:
    """Return the probability that all of several conditions hold, and its bounds.

    The product assumes independence; max(0, Σp − (n − 1)) and min p need no assumption
    (Fréchet's inequalities, from memory).

    >>> joint = joint_probability([0.9, 0.8])
    >>> round(joint.product, 2), round(joint.lower_bound, 2), joint.upper_bound
    (0.72, 0.7, 0.8)
    """
    shares = tuple(ps)
    if not shares:
        raise ValueError("Nothing was measured, so there is no probability to join.")
    if not all(0 <= share <= 1 for share in shares):
        raise ValueError(f"A probability lies between 0 and 1, unlike one of {shares}.")
    product = math.prod(shares)
    lower_bound = max(0.0, 1.0 - math.fsum(1.0 - share for share in shares))
    return JointProbability(product, min(lower_bound, product), min(shares))


def conformance_probabilities(
    values: ArrayLike, uncertainties: ArrayLike, lowers: ArrayLike, uppers: ArrayLike
) -> NDArray[np.float64]:
    """Return the conformance probability of many values at once; nan stands for no limit.

    The arrays broadcast. A value of nan is not measured, and a place without any limit has
    nothing to hold against: both give nan. Agrees with ``conformance_probability`` to 10⁻¹².

    >>> conformance_probabilities([13.6, 509.7], [1.8, 8.6], [12.5, 490], [16.3, np.nan]).round(6)
    array([0.66263, 0.98901])
    """
    given = (np.asarray(each, dtype=np.float64) for each in (values, uncertainties, lowers, uppers))
    value, uncertainty, lower, upper = np.broadcast_arrays(*given)
    _check_arrays(value, uncertainty, lower, upper)
    is_unknown = np.isnan(value) | (np.isnan(lower) & np.isnan(upper))
    with np.errstate(over="ignore"):
        low = np.nan_to_num((lower - value) / uncertainty, nan=-np.inf)
        high = np.nan_to_num((upper - value) / uncertainty, nan=np.inf)
    # Moved to the right-hand tail by symmetry, the difference of two small areas keeps its digits.
    is_left = -low > high
    near, far = np.where(is_left, -high, low), np.where(is_left, -low, high)
    shares = 0.5 * (_erfc(near / math.sqrt(2)) - _erfc(far / math.sqrt(2)))
    return np.where(is_unknown, np.nan, shares)


def check_limits(lower: float | None, upper: float | None) -> None:
    """Refuse limits that are not numbers or that are crossed.

    >>> check_limits(12.5, 16.3)
    """
    for limit in (lower, upper):
        if limit is not None and not math.isfinite(limit):
            raise LimitsError(
                f"A limit is a plain number, not {limit}. Leave out what has no limit."
            )
    if lower is not None and upper is not None and upper < lower:
        raise LimitsError(
            f"The limits are crossed: the upper limit {upper} is below the lower limit {lower}. "
            "Exchange them or correct one."
        )


def _check_arrays(
    value: NDArray[np.float64],
    uncertainty: NDArray[np.float64],
    lower: NDArray[np.float64],
    upper: NDArray[np.float64],
) -> None:
    is_measured = ~np.isnan(value)
    if np.isinf(value).any() or np.isinf(lower).any() or np.isinf(upper).any():
        raise LimitsError("Values and limits are plain numbers, or nan where there is none.")
    if not (np.isfinite(uncertainty) & (uncertainty > 0))[is_measured].all():
        raise UncertaintyError("Each ± must be more than 0 mm, and at least one of them is not.")
    if (upper < lower).any():
        raise LimitsError("At least one upper limit is below its lower limit.")


def _erfc(z: NDArray[np.float64]) -> NDArray[np.float64]:
    # numpy has none; one pass over a plain list is quicker than frompyfunc or vectorize, and exact.
    return np.fromiter(map(math.erfc, z.ravel().tolist()), np.float64, z.size).reshape(z.shape)
