"""Measurements with their doubt: instruments, allowances, and repeats that agree or do not."""

import math
from dataclasses import dataclass
from itertools import combinations

from catalog.reckoning.instruments import INSTRUMENTS, Instrument
from catalog.reckoning.length_texts import MM_PER_INCH, format_doubtful
from catalog.reckoning.lengths import Length
from catalog.reckoning.spreads import (
    UncertaintyError,
    check_uncertainty,
    rectangular,
    resolution_uncertainty,
    root_sum_square,
    triangular,
)

__all__ = [
    "DISAGREEMENT_CHANCE",
    "INSTRUMENTS",
    "Agreement",
    "Instrument",
    "Measured",
    "UncertaintyError",
    "add_allowance",
    "agreement",
    "check_uncertainty",
    "chi_squared_tail",
    "combine",
    "distance",
    "rectangular",
    "resolution_uncertainty",
    "root_sum_square",
    "take_reading",
    "triangular",
]

# Two readings one division apart on one rule differ by 2.45 standard uncertainties (chance 1.4 %),
# which happens whenever an edge lies between two marks; two divisions apart is 4.9.
DISAGREEMENT_CHANCE = 0.01


@dataclass(frozen=True, slots=True)
class Measured:
    """A value and its standard uncertainty, both in millimeters.

    >>> str(Measured(95.25, 0.1146))
    '95.25 ± 0.11 mm'
    """

    value: float
    uncertainty: float

    def __post_init__(self) -> None:
        if not math.isfinite(self.value):
            raise UncertaintyError(f"A measured value is a plain number, not {self.value}.")
        check_uncertainty(self.uncertainty)

    def __str__(self) -> str:
        return format_doubtful(self.value, self.uncertainty)


@dataclass(frozen=True, slots=True)
class Agreement:
    """Whether repeated measurements of one characteristic agree, and what they amount to.

    ``chance`` is how often honest repeats would scatter at least as much by accident;
    ``farthest`` are the two readings that stand farthest apart for their uncertainty.
    """

    combined: Measured
    chi_squared: float
    degrees: int
    chance: float
    farthest: tuple[Measured, Measured] | None

    @property
    def is_consistent(self) -> bool:
        return self.chance >= DISAGREEMENT_CHANCE

    @property
    def sentence(self) -> str:
        if self.farthest is None:
            return "One reading only: nothing to compare it with."
        if self.is_consistent:
            return f"{self.degrees + 1} readings agree: {self.combined}."
        low, high = sorted(self.farthest, key=lambda reading: reading.value)
        return (
            f"The readings {low} and {high} differ by more than their uncertainty explains. "
            "Measure again, at the place shown, before relying on either."
        )


def take_reading(length: Length, *, instrument: Instrument | None = None) -> Measured:
    """Turn a typed length into a measurement with the doubt of its instrument.

    The text and the instrument both limit the reading, and by the same rounding, so the larger of
    the two doubts counts, not their sum. A whole inch or a fraction of one is read off the marks
    of a named instrument, ``8 in`` on a rule of 64ths like ``8 1/64 in``, so there the instrument
    alone counts; a decimal is as fine as it is written (common practice, no source).

    >>> from catalog.reckoning.lengths import parse_length
    >>> str(take_reading(parse_length("3 48/64 in"), instrument=INSTRUMENTS["rule-64"]))
    '95.25 ± 0.11 mm'
    """
    known = instrument.uncertainty_mm if instrument else 0.0
    if known and _is_on_marks(length):
        return Measured(float(length.mm), known)
    return Measured(float(length.mm), max(resolution_uncertainty(length.resolution_mm), known))


def add_allowance(measured: Measured, *, less: float = 0.0, more: float = 0.0) -> Measured:
    """Allow for rust, paint or wear: the true value may lie ``less`` below to ``more`` above.

    Anywhere in that range is taken as equally likely, so a one-sided allowance also moves the
    value to its middle (rectangular, EURACHEM/CITAC E.1).

    >>> str(add_allowance(Measured(100.0, 0.3), less=1.0))
    '99.50 ± 0.42 mm'
    """
    if not (math.isfinite(less) and math.isfinite(more) and less >= 0 and more >= 0):
        raise UncertaintyError(f"An allowance is 0 mm or more each way, not {less} and {more}.")
    spread = 0.5 * (less + more) / math.sqrt(3)
    return Measured(
        measured.value + 0.5 * (more - less), root_sum_square(measured.uncertainty, spread)
    )


def combine(*measured: Measured, least_uncertainty: float = 0.0) -> Measured:
    """Combine repeated measurements of one characteristic into one.

    The mean is weighted by 1/u², and its standard error is the larger of what the stated
    uncertainties promise, 1/√Σw, and what the scatter shows; for equal uncertainties the latter
    is s/√n (JCGM 100, 4.2.3, clause from memory). Errors are assumed independent; what all
    repeats share, such as the divisions of one rule, goes into ``least_uncertainty``, because no
    number of repeats averages it away. Ask ``agreement`` first whether the repeats belong together.

    >>> str(combine(Measured(10.0, 0.1), Measured(10.1, 0.1)))
    '10.050 ± 0.071 mm'
    """
    if not measured:
        raise UncertaintyError("There is no measurement to combine: give at least one.")
    if not (math.isfinite(least_uncertainty) and least_uncertainty >= 0):
        raise UncertaintyError(f"The least ± is 0 mm or more, not {least_uncertainty}.")
    # Weights are taken against the finest reading, so that tiny uncertainties do not overflow.
    finest = min(reading.uncertainty for reading in measured)
    weights = [(finest / reading.uncertainty) ** 2 for reading in measured]
    total = math.fsum(weights)
    mean = _mean(measured, weights)
    scatter = math.fsum(
        weight * _squared(reading.value - mean)
        for weight, reading in zip(weights, measured, strict=True)
    )
    stated = finest / math.sqrt(total)
    shown = math.sqrt(scatter / total / max(1, len(measured) - 1))
    return Measured(mean, max(stated, shown, least_uncertainty))


def agreement(*measured: Measured, least_uncertainty: float = 0.0) -> Agreement:
    """Test whether repeats scatter more than their uncertainties explain.

    χ² = Σ((xᵢ − mean)/uᵢ)² on n − 1 degrees of freedom, the errors taken as normal and
    independent. Repeats disagree where honest ones would scatter as much less often than
    ``DISAGREEMENT_CHANCE``. Two readings agree while they differ by at most 2.58 √(u₁² + u₂²).

    >>> agreement(Measured(64.1, 0.1), Measured(64.3, 0.1)).is_consistent
    True
    >>> agreement(Measured(64.1, 0.1), Measured(65.3, 0.1)).is_consistent
    False
    """
    combined = combine(*measured, least_uncertainty=least_uncertainty)
    finest = min(reading.uncertainty for reading in measured)
    mean = _mean(measured, [(finest / reading.uncertainty) ** 2 for reading in measured])
    chi_squared = math.fsum(_squared((one.value - mean) / one.uncertainty) for one in measured)
    degrees = len(measured) - 1
    farthest = max(combinations(measured, 2), key=lambda pair: distance(*pair), default=None)
    chance = chi_squared_tail(chi_squared, degrees)
    return Agreement(combined, chi_squared, degrees, chance, farthest)


def distance(left: Measured, right: Measured) -> float:
    """Return how many standard uncertainties of their difference lie between two readings.

    >>> distance(Measured(10.0, 3.0), Measured(20.0, 4.0))
    2.0
    """
    return abs(left.value - right.value) / math.hypot(left.uncertainty, right.uncertainty)


def chi_squared_tail(chi_squared: float, degrees: int) -> float:
    """Return the chance that χ² on ``degrees`` of freedom is at least ``chi_squared``.

    Closed forms for whole degrees: Q(k/2, x/2) by the recurrence Q(a + 1, x) = Q(a, x) +
    xᵃe⁻ˣ/Γ(a + 1) (NIST Digital Library of Mathematical Functions 8.8.6, from memory).

    >>> round(chi_squared_tail(3.841459, 1), 6)
    0.05
    """
    half = 0.5 * chi_squared
    if degrees < 1 or half <= 0:
        return 1.0
    if math.isinf(half):
        return 0.0
    odd = degrees % 2
    first = math.erfc(math.sqrt(half)) if odd else 0.0
    powers = (0.5 * odd + step for step in range(degrees // 2))
    terms = (math.exp(a * math.log(half) - half - math.lgamma(a + 1)) for a in powers)
    return min(1.0, first + math.fsum(terms))


def _is_on_marks(length: Length) -> bool:
    """Say whether the text is in feet, inches or halves of halves of an inch, without decimals."""
    divisions = MM_PER_INCH / length.resolution_mm
    is_halved = divisions.denominator == 1 and divisions.numerator.bit_count() == 1
    return is_halved or length.resolution_mm == 12 * MM_PER_INCH


def _mean(measured: tuple[Measured, ...], weights: list[float]) -> float:
    pairs = zip(weights, measured, strict=True)
    mean = math.fsum(weight * one.value for weight, one in pairs) / math.fsum(weights)
    # Rounding must not carry the mean outside of the readings.
    values = [one.value for one in measured]
    return min(max(mean, min(values)), max(values))


def _squared(number: float) -> float:
    return number * number
