"""Standard uncertainties from what is known of an error: a step, a range, or several parts."""

import math
from fractions import Fraction


class UncertaintyError(ValueError):
    """A doubt that cannot be reckoned with; the message says what is needed."""


def check_uncertainty(uncertainty: float) -> None:
    """Refuse an uncertainty that is zero, negative or not a number.

    >>> check_uncertainty(0.1)
    """
    if not (math.isfinite(uncertainty) and uncertainty > 0):
        raise UncertaintyError(
            f"The ± of a measurement must be more than 0 mm, and it is {uncertainty}. No reading "
            "is exact: give at least half of the finest division that was read."
        )


def resolution_uncertainty(step: float | Fraction) -> float:
    """Return the standard uncertainty of reading to the nearest ``step``.

    Assumes that every true value within half a division is as likely: u = step/√12
    (JCGM 100, F.2.2.1, clause from memory).

    >>> round(resolution_uncertainty(Fraction("25.4") / 64), 6)
    0.114568
    """
    check_uncertainty(float(step))
    return float(step) / math.sqrt(12)


def rectangular(half_width: float | Fraction) -> float:
    """Return the standard uncertainty of "within ± ``half_width``, no more is known".

    a/√3 (EURACHEM/CITAC, Quantifying Uncertainty in Analytical Measurement, E.1).

    >>> round(rectangular(1.5), 2)
    0.87
    """
    check_uncertainty(float(half_width))
    return float(half_width) / math.sqrt(3)


def triangular(half_width: float | Fraction) -> float:
    """Return the standard uncertainty of "within ± ``half_width``, likelier in the middle".

    a/√6 (EURACHEM/CITAC, Quantifying Uncertainty in Analytical Measurement, E.1).

    >>> round(triangular(1.5), 3)
    0.612
    """
    check_uncertainty(float(half_width))
    return float(half_width) / math.sqrt(6)


def root_sum_square(*uncertainties: float) -> float:
    """Return the uncertainty of a sum or difference of independent parts, √(u₁² + u₂² + …).

    A part may be zero, none negative (JCGM 100, 5.1.2, clause from memory).

    >>> root_sum_square(3.0, 4.0)
    5.0
    """
    for part in uncertainties:
        if not (math.isfinite(part) and part >= 0):
            raise UncertaintyError(f"A part of an uncertainty is 0 or more, not {part}.")
    return math.hypot(*uncertainties)
