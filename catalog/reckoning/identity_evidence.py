"""What a piece might be, and the kinds of evidence that speak for or against it."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from catalog.reckoning.fit_words import limits_in_words as size_limits_in_words
from catalog.reckoning.identity_likelihoods import LACKING_SHARE, log_reading_density, spread
from catalog.reckoning.limits import Limits
from catalog.reckoning.uncertainty import Measured

SOMETHING_ELSE_KEY = "something-else"
# Beyond these no piece of rolling stock is measured, and the arithmetic is not promised.
SMALLEST_MM, LARGEST_MM = 1e-12, 1e12
# Judgments of the trade, common practice without a source; all can be stated otherwise.
CAME_OFF_FACTOR = 20.0
SAME_LOT_FACTOR = 3.0
FEWEST_PLACES = 0.5


class IdentityError(ValueError):
    """Say in words why a question about identity cannot be answered."""


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """One thing that a piece may be: a component of a vehicle class.

    ``prior_weight`` is commonly the number of places that the component has in the
    collection. ``characteristics`` maps each feature that the component has to its
    limits in millimeters, or to ``None`` where no limits are known; a feature that
    is absent is one that the component lacks. Where wear is allowed the limits are
    those as worn, so that a worn journal is matched to its nominal size by its limits
    of wear and not by the nearest size.
    """

    key: str
    name: str
    component: str = ""
    vehicle_class: str = ""
    prior_weight: float = 1.0
    characteristics: Mapping[str, Limits | None] = field(default_factory=dict, hash=False)

    def __post_init__(self) -> None:
        if not (math.isfinite(self.prior_weight) and self.prior_weight > 0.0):
            raise IdentityError(
                f"The weight of {self.name} is {self.prior_weight:g}; it must be more than nothing."
            )
        for characteristic, limits in self.characteristics.items():
            if limits is not None:
                _check_limits(self.name, characteristic, limits)

    def has(self, characteristic: str) -> bool:
        """Say whether the component has this feature at all."""
        return characteristic in self.characteristics


@dataclass(frozen=True, slots=True)
class SomethingElse(Hypothesis):
    """Everything that the catalog does not know: it may have any feature of any size."""

    key: str = SOMETHING_ELSE_KEY
    name: str = "something else"

    def has(self, characteristic: str) -> bool:
        """Say yes to every feature, since nothing is known against it."""
        return True


@dataclass(frozen=True, slots=True)
class MeasuredEvidence:
    """A characteristic of the piece, measured in millimeters."""

    characteristic: str
    measured: Measured

    def __post_init__(self) -> None:
        for number in (self.measured.value, self.measured.uncertainty):
            if not SMALLEST_MM <= number <= LARGEST_MM:
                raise IdentityError(
                    f"The {self.characteristic} is given as {self.measured.value:g} ± "
                    f"{self.measured.uncertainty:g} mm; a size lies between "
                    f"{SMALLEST_MM:g} and {LARGEST_MM:g} mm."
                )

    @property
    def statement(self) -> str:
        """Return the measurement in words, rounded as its uncertainty deserves."""
        return f"{self.characteristic} {self.measured}"

    def log_likelihood(self, hypothesis: Hypothesis) -> float:
        """Return the logarithm of the density of this reading if ``hypothesis`` is true."""
        value, uncertainty = self.measured.value, self.measured.uncertainty
        limits = hypothesis.characteristics.get(self.characteristic)
        density = log_reading_density(value, uncertainty, spread(limits, holding=(value,)))
        if hypothesis.has(self.characteristic):
            return density
        return density + math.log(LACKING_SHARE)

    def basis(self, hypothesis: Hypothesis) -> str:
        """Say what the hypothesis expects of this characteristic."""
        if not hypothesis.has(self.characteristic):
            return "has no such feature"
        limits = hypothesis.characteristics.get(self.characteristic)
        return "any size" if limits is None else limits_in_words(limits)


@dataclass(frozen=True, slots=True)
class AbsentEvidence:
    """A feature that the piece, looked at, does not have."""

    characteristic: str

    @property
    def statement(self) -> str:
        """Return the finding in words."""
        return f"no {self.characteristic}"

    def log_likelihood(self, hypothesis: Hypothesis) -> float:
        """Return what the absence costs a component that should have the feature.

        Something else keeps its weight, for nothing is known of its features.
        """
        expected = self.characteristic in hypothesis.characteristics
        return math.log(LACKING_SHARE) if expected else 0.0

    def basis(self, hypothesis: Hypothesis) -> str:
        """Say what the hypothesis expects."""
        expected = self.characteristic in hypothesis.characteristics
        return "should have one" if expected else "is not known to have one"


@dataclass(frozen=True, slots=True)
class StatedEvidence:
    """Evidence whose weight for each hypothesis is stated; only the ratios count.

    ``factors`` maps keys of hypotheses to weights above zero, and ``otherwise`` is the
    weight for those not named, something else included.
    """

    statement: str
    factors: Mapping[str, float] = field(hash=False)
    otherwise: float = 1.0

    def __post_init__(self) -> None:
        for factor in (*self.factors.values(), self.otherwise):
            if not (math.isfinite(factor) and factor > 0.0):
                raise IdentityError(
                    f"{self.statement}: a factor of {factor:g} would make something certain; "
                    "state a number above zero, however small."
                )

    def log_likelihood(self, hypothesis: Hypothesis) -> float:
        """Return the logarithm of the stated factor."""
        return math.log(self.factors.get(hypothesis.key, self.otherwise))

    def basis(self, hypothesis: Hypothesis) -> str:
        """Show the factor as it was stated, without a power of ten where it can be avoided."""
        factor = self.factors.get(hypothesis.key, self.otherwise)
        if factor == self.otherwise:
            return "nothing in it speaks for one"
        return f"taken at {factor:,.0f} to 1" if factor >= 100 else f"taken at {factor:.3g} to 1"


@dataclass(frozen=True, slots=True)
class MarkEvidence(StatedEvidence):
    """A mark: how likely its reading is on each component, and by chance on any other."""


@dataclass(frozen=True, slots=True)
class FactorEvidence(StatedEvidence):
    """A circumstance, such as the vehicle the piece came off or the lot it came in."""


Evidence = MeasuredEvidence | AbsentEvidence | MarkEvidence | FactorEvidence


def came_off(
    vehicle: str,
    vehicle_class: str,
    hypotheses: Iterable[Hypothesis],
    *,
    factor: float = CAME_OFF_FACTOR,
) -> FactorEvidence:
    """Return the evidence that a piece came off a vehicle of a known class.

    >>> came_off("wagon 31", "E", [Hypothesis("e-box", "class E box", "box", "E")]).factors
    {'e-box': 20.0}
    """
    favored = {h.key: factor for h in hypotheses if h.vehicle_class == vehicle_class}
    return FactorEvidence(f"came off {vehicle}", favored)


def same_lot(
    lot: str,
    found_there: Iterable[str],
    hypotheses: Iterable[Hypothesis],
    *,
    factor: float = SAME_LOT_FACTOR,
) -> FactorEvidence:
    """Return the evidence of a lot in which parts of the classes ``found_there`` are known.

    >>> same_lot("the pallet", ["E"], [Hypothesis("e-box", "class E box", "box", "E")]).factors
    {'e-box': 3.0}
    """
    classes = set(found_there)
    favored = {h.key: factor for h in hypotheses if h.vehicle_class in classes}
    return FactorEvidence(f"came with identified parts in {lot}", favored)


def limits_in_words(limits: Limits) -> str:
    """Write limits as a person would say them.

    >>> limits_in_words(Limits(63.5, 64.5))
    '63.5 to 64.5 mm'
    """
    return size_limits_in_words(limits.lower, limits.upper)


def prior_weight(places: int) -> float:
    """Return the weight of a component with so many places in the collection's classes.

    One that has no place keeps half of one, for pieces turn up that nobody looked for.

    >>> prior_weight(8), prior_weight(0)
    (8.0, 0.5)
    """
    return max(float(places), FEWEST_PLACES)


def _check_limits(name: str, characteristic: str, limits: Limits) -> None:
    given = [side for side in (limits.lower, limits.upper) if side is not None]
    if not all(math.isfinite(side) and abs(side) <= LARGEST_MM for side in given):
        raise IdentityError(f"The limits for the {characteristic} of {name} are no sizes.")
    if sorted(given) != given:
        raise IdentityError(
            f"The limits for the {characteristic} of {name} are crossed: "
            f"{given[0]:g} is above {given[1]:g} mm."
        )
    if limits.upper is not None and limits.upper < SMALLEST_MM:
        raise IdentityError(
            f"The {characteristic} of {name} cannot be limited to {limits.upper:g} mm or less."
        )
