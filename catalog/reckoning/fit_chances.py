"""One number for how likely a part serves at a place, to rank parts and to plan by."""

from enum import StrEnum

from catalog.reckoning.conformance import Fit, Verdict

# What is not measured speaks neither for nor against; where nobody wrote down limits, the
# component's name is all there is to go by, and most pieces of one name fit (common practice,
# no source).
UNMEASURED = 0.5
NO_LIMITS = 0.7


class Standing(StrEnum):
    """How far people agree on what a part is."""

    AGREED = "agreed"
    PROPOSED = "proposed"
    DISPUTED = "disputed"


_TRUST = {Standing.AGREED: 1.0, Standing.PROPOSED: 0.9, Standing.DISPUTED: 0.5}


def chance_of(verdict: Verdict, standing: Standing) -> float:
    """Return the chance that a part serves, from its verdict and what people think that it is.

    The measured characteristics count as independent of each other and of the identification.
    A part that was tried and went is sure, whatever people call it. The weights for what is
    not known are common practice, no source; they rank parts and exclude none.

    >>> from catalog.reckoning.conformance import Requirement, verdict
    >>> bore = Requirement("bore", lower=63.0, upper=64.0)
    >>> chance_of(verdict([(bore, None)]), Standing.AGREED)
    0.5
    """
    if verdict.trial is not None:
        return 0.0 if verdict.fit == Fit.MISFIT else 1.0
    if verdict.as_worn is None and not verdict.missing:
        return NO_LIMITS * _TRUST[standing]
    measured = verdict.as_worn.product if verdict.as_worn else 1.0
    return measured * UNMEASURED ** len(verdict.missing) * _TRUST[standing]
