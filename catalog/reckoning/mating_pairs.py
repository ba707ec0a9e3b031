"""Which pieces of two components would not mate, all against all."""

from collections.abc import Sequence

import numpy as np

from catalog.reckoning.conformance import FITS_AT_LEAST, MISFIT_AT_MOST
from catalog.reckoning.fit_probabilities import conformance_probabilities
from catalog.reckoning.uncertainty import Measured


def clashing(
    outers: Sequence[Measured],
    inners: Sequence[Measured],
    *,
    least: float | None,
    greatest: float | None,
) -> list[tuple[int, int]]:
    """Return the pairs, by place in the two lists, whose clearance lies outside its limits.

    The same guard holds as for a single pair (``conformance``): a pair clashes when its
    clearance conforms with a probability of ``MISFIT_AT_MOST`` or less, held against the best
    that so coarse a measurement could show. Errors count as independent.

    >>> clashing([Measured(64, 0.05), Measured(70, 0.05)], [Measured(63.5, 0.05)],
    ...          least=0.1, greatest=1.0)
    [(1, 0)]
    """
    if not outers or not inners:
        return []
    outer, outer_u = _columns(outers)
    inner, inner_u = _columns(inners)
    gap = outer[:, None] - inner[None, :]
    spread = np.hypot(outer_u[:, None], inner_u[None, :])
    low = np.nan if least is None else least
    high = np.nan if greatest is None else greatest
    share = conformance_probabilities(gap, spread, low, high)
    best = np.ones_like(share)
    if least is not None and greatest is not None:
        best = conformance_probabilities((least + greatest) / 2, spread, least, greatest)
    plausible = np.where(best < FITS_AT_LEAST, share / best, share)
    return [(int(a), int(b)) for a, b in np.argwhere(plausible <= MISFIT_AT_MOST)]


def _columns(measured: Sequence[Measured]) -> tuple[np.ndarray, np.ndarray]:
    values = np.array([one.value for one in measured])
    return values, np.array([one.uncertainty for one in measured])
