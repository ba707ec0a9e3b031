"""Why a reading leaves a doubt about its limits, and what would settle it."""

import math
from statistics import NormalDist

from catalog.reckoning.instruments import INSTRUMENTS
from catalog.reckoning.uncertainty import Measured

TOO_COARSE = (
    "The measurement is too coarse: even a perfect piece could not be shown to fit. "
    "Use a finer instrument."
)
# So many standard uncertainties from one limit, or from the nearer of two, is 95 % sure.
_ONE_LIMIT, _TWO_LIMITS = NormalDist().inv_cdf(0.95), NormalDist().inv_cdf(0.975)
# What a bench has, the coarsest first.
_TOOLS = [INSTRUMENTS[code] for code in ("rule-64", "vernier-caliper", "micrometer")]


def what_would_settle(measured: Measured, lower: float | None, upper: float | None) -> str:
    """Say which instrument would turn a doubtful reading into an answer, if it reads the same.

    On the limit itself none would: half of what could be true lies on either side, however
    finely it is read (JCGM 106:2012, 7.2, clause from memory).

    >>> what_would_settle(Measured(94.8, 0.2), None, 95.0)
    ...     # doctest: +NORMALIZE_WHITESPACE
    'It reads 0.2 mm from its limit. One good to ± 0.12 mm would settle it:
    Vernier caliper, 0.02 mm.'
    """
    limits = [limit for limit in (lower, upper) if limit is not None]
    near = min(abs(measured.value - limit) for limit in limits)
    finest = near / (_ONE_LIMIT if len(limits) == 1 else _TWO_LIMITS)
    # A clearance is the difference of two readings, and each must be so much finer.
    tool = next((one for one in _TOOLS if one.uncertainty_mm * math.sqrt(2) <= finest), None)
    if tool is None:
        return (
            "It reads so near to its limit that no instrument here would settle it. Try it in its "
            "place: a trial outranks arithmetic."
        )
    return (
        f"It reads {near:.2g} mm from its limit. One good to ± {finest:.2g} mm would settle it: "
        f"{tool.name}."
    )


def worn_only(as_new: float | None) -> str:
    """Name the limits of wear, and why not those as new, given the chance to lie within these.

    >>> worn_only(0.01), worn_only(None)
    ('the limits of wear, not those as new', 'the limits of wear; none as new are recorded')
    """
    why = "; none as new are recorded" if as_new is None else ", not those as new"
    return f"the limits of wear{why}"
