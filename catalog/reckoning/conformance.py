"""Does it fit: each characteristic held against its limits, and one verdict with its reasons."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from catalog.reckoning.fit_probabilities import (
    JointProbability,
    LimitsError,
    best_probability,
    check_limits,
    clearance,
    clearance_probability,
    conformance_probabilities,
    conformance_probability,
    joint_probability,
    log_conformance_probability,
)
from catalog.reckoning.fit_words import limits_in_words
from catalog.reckoning.near_limits import TOO_COARSE, what_would_settle, worn_only
from catalog.reckoning.plurals import listed
from catalog.reckoning.uncertainty import Measured, UncertaintyError

__all__ = [
    "FITS_AT_LEAST",
    "MISFIT_AT_MOST",
    "Characteristic",
    "Fit",
    "JointProbability",
    "LimitsError",
    "Requirement",
    "Trial",
    "UncertaintyError",
    "Verdict",
    "best_probability",
    "clearance",
    "clearance_probability",
    "conformance_probabilities",
    "conformance_probability",
    "joint_probability",
    "log_conformance_probability",
    "verdict",
]

# The guard of a verdict: what lies between the two is doubtful, and said to be so.
FITS_AT_LEAST = 0.95
MISFIT_AT_MOST = 0.05


class Fit(StrEnum):
    """What can be said of a piece and a place."""

    FITS = "fits"
    DOUBTFUL = "doubtful"
    MISFIT = "does not fit"
    UNKNOWN = "unknown"


class Trial(StrEnum):
    """What happened when the piece was tried in its place."""

    WENT = "went"
    WENT_WITH_WORK = "went with work"
    DID_NOT_GO = "did not go"


@dataclass(frozen=True, slots=True)
class Requirement:
    """The limits of one characteristic, as new and as worn, and where they are written.

    A limit of wear that is not given is the limit as new. Where only one side has a limit as new,
    the limit of wear serves for the other, because what no worn piece may pass no new one may.
    """

    name: str
    lower: float | None = None
    upper: float | None = None
    worn_lower: float | None = None
    worn_upper: float | None = None
    is_required: bool = True
    source: str = ""

    def __post_init__(self) -> None:
        check_limits(*self.as_new)
        check_limits(*self.as_worn)
        if _exceeds(self.worn_lower, self.lower) or _exceeds(self.upper, self.worn_upper):
            raise LimitsError(
                f"The limits of wear of {self.name} lie inside its limits as new. "
                "Wear only widens them: correct one or leave the limits of wear out."
            )

    @property
    def as_new(self) -> tuple[float | None, float | None]:
        if self.lower is None and self.upper is None:
            return None, None
        return _first(self.lower, self.worn_lower), _first(self.upper, self.worn_upper)

    @property
    def as_worn(self) -> tuple[float | None, float | None]:
        return _first(self.worn_lower, self.lower), _first(self.worn_upper, self.upper)

    @property
    def has_room(self) -> bool:
        """Say whether there are limits at all, with some tolerance between them."""
        lower, upper = self.as_worn
        return lower != upper


@dataclass(frozen=True, slots=True)
class Characteristic:
    """One line of a verdict: what was asked, what was measured, and how likely it conforms.

    ``best`` is the highest probability that the uncertainty of the measurement could ever show.
    """

    requirement: Requirement
    measured: Measured | None
    as_new: float | None = None
    as_worn: float | None = None
    best: float | None = None

    @property
    def is_too_coarse(self) -> bool:
        """Say whether even a perfect piece, measured like this, could not be shown to fit."""
        return self.best is not None and self.best < FITS_AT_LEAST

    @property
    def plausibility(self) -> float | None:
        """Return the probability against the best that so coarse a measurement could show.

        Without this a guess by eye would exclude every piece from a close fit.
        """
        if self.as_worn is None or self.best is None or not self.is_too_coarse:
            return self.as_worn
        return min(1.0, self.as_worn / self.best)

    @property
    def fit(self) -> Fit:
        if self.as_worn is None or self.plausibility is None:
            return Fit.UNKNOWN
        if self.plausibility <= MISFIT_AT_MOST:
            return Fit.MISFIT
        return Fit.FITS if self.as_worn >= FITS_AT_LEAST else Fit.DOUBTFUL

    @property
    def is_outside(self) -> bool:
        return self.fit == Fit.MISFIT

    @property
    def is_worn(self) -> bool:
        """Say whether it holds by its limits of wear only."""
        return self.fit == Fit.FITS and (self.as_new or 0.0) < FITS_AT_LEAST

    @property
    def note(self) -> str:
        """Say in words what the numbers do not."""
        if not self.requirement.has_room:
            return "No tolerance is recorded: add a lower and an upper limit that differ."
        if self.measured is None:
            return "Not measured."
        if self.is_too_coarse and self.fit == Fit.DOUBTFUL:
            return TOO_COARSE
        if self.fit == Fit.DOUBTFUL:
            return what_would_settle(self.measured, *self.requirement.as_worn)
        return f"Within {worn_only(self.as_new)}." if self.is_worn else ""


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether a piece fits, with every characteristic, what is missing, and how sure it is.

    ``as_new`` and ``as_worn`` join the required characteristics that could be reckoned, and
    ``missing`` names those that could not.
    """

    fit: Fit
    is_worn: bool
    characteristics: tuple[Characteristic, ...]
    missing: tuple[str, ...]
    as_new: JointProbability | None
    as_worn: JointProbability | None
    trial: Trial | None = None

    @property
    def sentence(self) -> str:
        """Say the verdict in a few words, the first reason with it."""
        if self.trial is not None:
            return f"{self.fit.capitalize()}: it was tried and {self.trial}."
        if self.fit == Fit.UNKNOWN:
            return f"Unknown: {self._missing_words}."
        if self.fit != Fit.FITS:
            return f"{self.fit.capitalize()}: {_of_weakest(self._reckoned, self.fit)}."
        if self.is_worn:
            worn = [one for one in self._reckoned if one.is_worn] or self._reckoned
            return f"Fits as worn: {_are_within(worn)} {worn_only(worn[0].as_new)}."
        return f"Fits: {_are_within(self._reckoned)} the limits."

    @property
    def _reckoned(self) -> list[Characteristic]:
        return [one for one in _required(self.characteristics) if one.as_worn is not None]

    @property
    def _missing_words(self) -> str:
        return f"measure {listed(self.missing)}" if self.missing else "nothing is required"


def verdict(
    findings: Iterable[tuple[Requirement, Measured | None]], *, trial: Trial | None = None
) -> Verdict:
    """Hold each measurement against its requirement and sum up the required ones.

    Characteristics count as independent. One that is required and not measured leaves the answer
    unknown, unless those measured already exclude the fit. Advisory ones are shown and decide
    nothing. A trial that took place outranks arithmetic. For a mating pair the measurement is the
    ``clearance`` of the two pieces.

    >>> journal = Requirement("journal diameter", lower=95, upper=95.5, worn_lower=92)
    >>> verdict([(journal, Measured(93.2, 0.1))]).sentence
    'Fits as worn: journal diameter is within the limits of wear, not those as new.'
    >>> verdict([(journal, None)]).sentence
    'Unknown: measure journal diameter.'
    """
    lines = tuple(_characteristic(requirement, measured) for requirement, measured in findings)
    required = _required(lines)
    missing = tuple(line.requirement.name for line in required if line.as_worn is None)
    as_new = _join(line.as_new for line in required)
    as_worn = _join(line.as_worn for line in required)
    fit = _TRIED[trial] if trial else _sum_up(required)
    is_worn = trial is None and fit == Fit.FITS and not _is_as_new(required, as_new)
    return Verdict(fit, is_worn, lines, missing, as_new, as_worn, trial)


_TRIED = {Trial.WENT: Fit.FITS, Trial.WENT_WITH_WORK: Fit.FITS, Trial.DID_NOT_GO: Fit.MISFIT}


def _characteristic(requirement: Requirement, measured: Measured | None) -> Characteristic:
    if measured is None or not requirement.has_room:
        return Characteristic(requirement, measured)
    lower, upper = requirement.as_worn
    return Characteristic(
        requirement,
        measured,
        as_new=_share(measured, *requirement.as_new),
        as_worn=_share(measured, lower, upper),
        best=best_probability(measured.uncertainty, lower=lower, upper=upper),
    )


def _share(measured: Measured, lower: float | None, upper: float | None) -> float | None:
    if lower is None and upper is None:
        return None
    return conformance_probability(measured.value, measured.uncertainty, lower=lower, upper=upper)


def _sum_up(required: tuple[Characteristic, ...]) -> Fit:
    plausibility = _join(line.plausibility for line in required)
    if plausibility is not None and plausibility.product <= MISFIT_AT_MOST:
        return Fit.MISFIT
    as_worn = _join(line.as_worn for line in required)
    if as_worn is None or any(line.as_worn is None for line in required):
        return Fit.UNKNOWN
    return Fit.FITS if as_worn.product >= FITS_AT_LEAST else Fit.DOUBTFUL


def _is_as_new(required: tuple[Characteristic, ...], as_new: JointProbability | None) -> bool:
    is_complete = all(line.as_new is not None for line in required)
    return is_complete and as_new is not None and as_new.product >= FITS_AT_LEAST


def _join(shares: Iterable[float | None]) -> JointProbability | None:
    known = [share for share in shares if share is not None]
    return joint_probability(known) if known else None


def _required(lines: tuple[Characteristic, ...]) -> tuple[Characteristic, ...]:
    return tuple(line for line in lines if line.requirement.is_required)


def _of_weakest(reckoned: list[Characteristic], fit: Fit) -> str:
    weakest = min(reckoned, key=lambda one: one.plausibility or 0.0)
    reading = f"{weakest.requirement.name} is {weakest.measured}"
    if weakest.is_too_coarse and fit == Fit.DOUBTFUL:
        return f"{reading}, too coarse a measurement to show that it fits"
    if weakest.measured is not None and weakest.measured.value < 0 and fit == Fit.MISFIT:
        reading = f"{reading}, so there is no room"
    return f"{reading}; allowed is {limits_in_words(*weakest.requirement.as_worn)}"


def _are_within(reckoned: Iterable[Characteristic]) -> str:
    names = [one.requirement.name for one in reckoned]
    return f"{listed(names)} {'is' if len(names) == 1 else 'are'} within"


def _first(first: float | None, second: float | None) -> float | None:
    return second if first is None else first


def _exceeds(left: float | None, right: float | None) -> bool:
    return left is not None and right is not None and left > right
