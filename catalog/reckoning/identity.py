"""What a piece may be, and what to measure next: the names to import from outside."""

from catalog.reckoning.identity_evidence import (
    SOMETHING_ELSE_KEY,
    AbsentEvidence,
    Evidence,
    FactorEvidence,
    Hypothesis,
    IdentityError,
    MarkEvidence,
    MeasuredEvidence,
    SomethingElse,
    came_off,
    prior_weight,
    same_lot,
)
from catalog.reckoning.identity_information import (
    STEEL_RULE,
    Outcome,
    Suggestion,
    Tool,
    next_measurement,
)
from catalog.reckoning.identity_rankings import (
    SOMETHING_ELSE_SHARE,
    Factor,
    Opinion,
    Ranking,
    weigh,
)

__all__ = [
    "SOMETHING_ELSE_KEY",
    "SOMETHING_ELSE_SHARE",
    "STEEL_RULE",
    "AbsentEvidence",
    "Evidence",
    "Factor",
    "FactorEvidence",
    "Hypothesis",
    "IdentityError",
    "MarkEvidence",
    "MeasuredEvidence",
    "Opinion",
    "Outcome",
    "Ranking",
    "SomethingElse",
    "Suggestion",
    "Tool",
    "came_off",
    "next_measurement",
    "prior_weight",
    "same_lot",
    "weigh",
]
