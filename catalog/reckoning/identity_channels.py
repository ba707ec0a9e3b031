"""What a reading would be under each hypothesis, laid out as a table of probabilities."""

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from catalog.reckoning.identity_evidence import Hypothesis
from catalog.reckoning.identity_likelihoods import LACKING_SHARE, Spread, spread
from catalog.reckoning.limits import Limits
from catalog.reckoning.normal_tails import shares_below

Numbers = NDArray[np.float64]
Places = NDArray[np.intp]
Range = tuple[float | None, float | None]

# A reading is followed to this many standard uncertainties beyond each limit.
_REACH = 6.0
# Borders between which readings are integrated: so many around each limit, and fewer
# where there are many limits, for the answer must come at once.
_MOST_AROUND, _BORDERS = 17, 1200
# Limits closer than this, in standard uncertainties, are moved so far apart: no reading
# could tell, and coinciding limits would leave nothing to integrate.
_THINNEST = 0.02
# No reading is finer than this share of the greatest size, where rounding would begin to tell.
_FINEST = 1e-9

_KNOTS, _KNOT_WEIGHTS = np.polynomial.legendre.leggauss(3)


@dataclass(frozen=True, slots=True)
class Contender:
    """A hypothesis that is still in question, with its present probability."""

    hypothesis: Hypothesis
    probability: float


@dataclass(frozen=True, slots=True)
class Expectation:
    """What hypotheses say of a characteristic: where its size lies, and whether they have it."""

    sizes: Spread
    is_present: bool


@dataclass(frozen=True, slots=True)
class Channel:
    """The probability of each reading for each expectation, without the many that are zero.

    Hypotheses that expect the same are one row, since no reading can part them;
    ``leaders`` names the likeliest of each row. A column is a reading, and the last
    one after all ``readings`` is *no such feature*. Entry for entry, ``likelihoods``
    belong to ``rows`` and ``columns``, and those of a row add up to one.
    """

    leaders: tuple[Hypothesis, ...]
    probabilities: Numbers
    leading_probabilities: Numbers
    readings: Numbers
    rows: Places
    columns: Places
    likelihoods: Numbers

    @property
    def mixture(self) -> Numbers:
        """Return the probability of each column, whatever the piece is."""
        joint = self.probabilities[self.rows] * self.likelihoods
        sums = np.bincount(self.columns, joint, len(self.readings) + 1)
        return np.asarray(sums, dtype=np.float64)

    def ranges(self, chosen: NDArray[np.bool_]) -> tuple[Range, ...]:
        """Return the unbroken ranges of readings among those ``chosen``."""
        middles = (0.5 * (self.readings[1:] + self.readings[:-1])).tolist()
        borders = [None, *middles, None]
        turns = np.flatnonzero(np.diff(np.concatenate(([False], chosen, [False]))))
        ends = [borders[turn] for turn in turns.tolist()]
        return tuple(zip(ends[::2], ends[1::2], strict=True))


def measuring_channel(
    contenders: Sequence[Contender], characteristic: str, uncertainty: float
) -> Channel:
    """Return the channel from what the piece is to what a measurement would read.

    Under limits the reading spreads evenly between them and then normally with the
    ``uncertainty``; a hypothesis that lacks the feature shows it in 2 of 100 pieces.
    """
    groups = _expectations(contenders, characteristic)
    spreads = [expectation.sizes for expectation in groups]
    uncertainty = max(uncertainty, _FINEST * max(one.greatest for one in spreads))
    readings, widths = _readings(spreads, uncertainty)
    rows, columns, densities = _densities(spreads, readings, uncertainty)
    shown = np.array([1.0 if one.is_present else LACKING_SHARE for one in groups])
    masses = densities * widths[columns]
    masses *= (shown / np.bincount(rows, masses, len(spreads)))[rows]
    lacking = np.flatnonzero(shown < 1.0)
    leading = [max(group, key=lambda one: one.probability) for group in groups.values()]
    return Channel(
        tuple(contender.hypothesis for contender in leading),
        np.array([math.fsum(one.probability for one in group) for group in groups.values()]),
        np.array([contender.probability for contender in leading]),
        readings,
        np.concatenate((rows, lacking)),
        np.concatenate((columns, np.full(len(lacking), len(readings)))),
        np.concatenate((masses, 1.0 - shown[lacking])),
    )


def _expectations(
    contenders: Sequence[Contender], characteristic: str
) -> dict[Expectation, list[Contender]]:
    groups: defaultdict[tuple[Limits | None, bool], list[Contender]] = defaultdict(list)
    for contender in contenders:
        limits = contender.hypothesis.characteristics.get(characteristic)
        groups[limits, contender.hypothesis.has(characteristic)].append(contender)
    sides = [side for limits, _ in groups if limits for side in (limits.lower, limits.upper)]
    holding = tuple(side for side in sides if side is not None and side > 0.0)
    # Only the extremes can stretch a spread, and passing only them keeps this quick.
    extremes = (min(holding), max(holding)) if holding else ()
    return {
        Expectation(spread(limits, holding=extremes), is_present): group
        for (limits, is_present), group in groups.items()
    }


def _readings(spreads: Sequence[Spread], uncertainty: float) -> tuple[Numbers, Numbers]:
    """Return readings to integrate over, and the width that each stands for.

    Gauss–Legendre points between borders that crowd around every limit, where the
    densities bend, and are spread by proportion elsewhere.
    """
    limits = np.unique([side for one in spreads for side in (one.least, one.greatest)])
    around = min(_MOST_AROUND, max(2, _BORDERS // len(limits)))
    offsets = np.linspace(-1.0, 1.0, around) * min(_REACH, 0.5 * around)
    near = (limits[:, None] + uncertainty * offsets).ravel()
    far = np.geomspace(limits[limits > 0.0].min(), limits.max(), 49)
    borders = np.unique(np.concatenate((near, far)))
    # Borders closer than half an uncertainty add nothing but work.
    apart = np.diff(np.rint(borders / (0.5 * uncertainty))) > 0.0
    borders = borders[np.concatenate(([True], apart))]
    halves = 0.5 * np.diff(borders)[:, None]
    middles = 0.5 * (borders[1:] + borders[:-1])[:, None]
    return (middles + halves * _KNOTS).ravel(), (halves * _KNOT_WEIGHTS).ravel()


def _densities(
    spreads: Sequence[Spread], readings: Numbers, uncertainty: float
) -> tuple[Places, Places, Numbers]:
    """Return rows, columns and densities, but for a factor, wherever a row can be read."""
    proportional = np.array([one.is_proportional for one in spreads])
    least = np.array([one.least for one in spreads])
    greatest = np.array([one.greatest for one in spreads])
    blur = 0.5 * np.maximum(0.0, _THINNEST * uncertainty - (greatest - least))
    least, greatest = least - blur, greatest + blur
    firsts = np.searchsorted(readings, least - _REACH * uncertainty)
    counts = np.searchsorted(readings, greatest + _REACH * uncertainty) - firsts
    rows = np.repeat(np.arange(len(spreads)), counts)
    columns = np.arange(len(rows)) + np.repeat(firsts - np.cumsum(counts) + counts, counts)
    at = readings[columns]
    shares = shares_below((greatest[rows] - at) / uncertainty)
    shares -= shares_below((least[rows] - at) / uncertainty)
    divisors = np.where(proportional[rows], np.maximum(at, uncertainty), 1.0)
    return rows, columns, shares / divisors
