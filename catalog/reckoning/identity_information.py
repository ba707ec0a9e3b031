"""What to measure next: the one measurement expected to remove most of the doubt."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from catalog.reckoning.identity_channels import Channel, Contender, Range, measuring_channel
from catalog.reckoning.identity_evidence import (
    AbsentEvidence,
    Evidence,
    Hypothesis,
    IdentityError,
    MeasuredEvidence,
    SomethingElse,
)
from catalog.reckoning.identity_rankings import (
    SOMETHING_ELSE_SHARE,
    entropy_bits,
    weigh,
)
from catalog.reckoning.identity_words import percent, range_in_words, with_article

# Hypotheses less likely than this are left out of the forecast: together they could
# change it by less than it is rounded to.
NEGLIGIBLE = 1e-9
# Outcomes that would name a leader less often than this are not worth a line.
RARE = 0.005
MOST_OUTCOMES = 12
_NEXT_TO_NOTHING = 0.01


@dataclass(frozen=True, slots=True)
class Tool:
    """What a characteristic is measured with, and the standard uncertainty it leaves in mm."""

    name: str
    uncertainty: float

    def __post_init__(self) -> None:
        if not (math.isfinite(self.uncertainty) and self.uncertainty > 0.0):
            raise IdentityError(
                f"The uncertainty of the {self.name} is {self.uncertainty:g} mm; "
                "it must be more than nothing."
            )


# Read to the nearest millimeter, 1/√12 mm (JCGM 100:2008, clause from memory).
STEEL_RULE = Tool("steel rule", 0.288675)


@dataclass(frozen=True, slots=True)
class Outcome:
    """The readings after which one hypothesis would lead, and how clearly it would.

    ``ranges`` are in millimeters, and an end that is ``None`` is open.
    """

    leader: Hypothesis
    probability: float
    leader_probability: float
    ranges: tuple[Range, ...]
    is_absent: bool

    @property
    def in_words(self) -> str:
        """Say what would be read and what it would tell."""
        leader = with_article(self.leader)
        tells = f"{leader} leads ({percent(self.leader_probability)})"
        return f"{self._reading_in_words()} (chance {percent(self.probability)}): {tells}"

    def _reading_in_words(self) -> str:
        if isinstance(self.leader, SomethingElse):
            return "any other size"
        sizes = [range_in_words(*ends) for ends in self.ranges]
        if len(sizes) > 2:
            sizes = [f"{sizes[0]}, {len(sizes) - 1} other ranges"]
        return " or ".join([*sizes, "no such feature"] if self.is_absent else sizes)


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A characteristic worth measuring, with what is expected to be learned from it."""

    characteristic: str
    tool: Tool
    information_bits: float
    doubt_bits: float
    outcomes: tuple[Outcome, ...]

    @property
    def share_of_doubt(self) -> float:
        """Return how much of the present doubt the measurement should remove, 0 to 1."""
        return self.information_bits / self.doubt_bits if self.doubt_bits > 0.0 else 0.0

    @property
    def in_words(self) -> str:
        """Say what to measure, with what, and what it is worth."""
        tool = f"{self.tool.name[:1].lower()}{self.tool.name[1:]}"
        act = f"Measure the {self.characteristic} with the {tool}"
        if self.information_bits < _NEXT_TO_NOTHING:
            return f"{act}: it would tell next to nothing."
        return f"{act}: it should remove {percent(self.share_of_doubt)} of the doubt."


def next_measurement(
    hypotheses: Sequence[Hypothesis],
    evidence: Iterable[Evidence],
    *,
    tools: Mapping[str, Tool],
    something_else_share: float = SOMETHING_ELSE_SHARE,
) -> tuple[Suggestion, ...]:
    """Rank the unmeasured characteristics by the expected fall in entropy.

    The fall is H(h) − E[H(h | y)], the mutual information of hypothesis and reading
    (D. V. Lindley, On a Measure of the Information Provided by an Experiment, 1956,
    from memory), integrated numerically over the predictive mixture of readings. It is
    never negative and never above the present doubt H(h). A characteristic without a
    tool of its own is taken to be read with a steel rule.

    >>> from catalog.reckoning.limits import Limits
    >>> boxes = [
    ...     Hypothesis("e", "class E box", characteristics={"bore": Limits(63.5, 64.5)}),
    ...     Hypothesis("b", "class B box", characteristics={"bore": Limits(76.0, 77.0)}),
    ... ]
    >>> [best] = next_measurement(boxes, [], tools={"bore": Tool("inside caliper", 0.1)})
    >>> best.in_words
    'Measure the bore with the inside caliper: it should remove over 99 % of the doubt.'
    >>> best.outcomes[0].in_words
    '63.18 to 64.82 mm (chance 45 %): a class E box leads (over 99 %)'
    """
    given = tuple(evidence)
    ranking = weigh(hypotheses, given, something_else_share=something_else_share)
    contenders = tuple(
        Contender(opinion.hypothesis, opinion.probability)
        for opinion in ranking.opinions
        if opinion.probability > NEGLIGIBLE
    )
    suggestions = [
        _suggestion(contenders, characteristic, tools.get(characteristic, STEEL_RULE))
        for characteristic in _unmeasured(hypotheses, given)
    ]
    return tuple(sorted(suggestions, key=lambda one: (-one.information_bits, one.characteristic)))


def information_bits(channel: Channel) -> float:
    """Return the mutual information of a channel, between zero and the entropy of its input.

    Every row of a channel sums to one, so the bounds hold exactly but for rounding.
    """
    # Entries that underflow to nothing add nothing, and have no logarithm.
    some = channel.likelihoods > 0.0
    likelihoods = channel.likelihoods[some]
    gains = likelihoods * np.log2(likelihoods / channel.mixture[channel.columns[some]])
    # A matrix product would start threads, which cost more than they save on so little.
    information = float(np.sum(channel.probabilities[channel.rows[some]] * gains))
    return min(max(information, 0.0), entropy_bits(channel.probabilities.tolist()))


def _unmeasured(hypotheses: Sequence[Hypothesis], evidence: Iterable[Evidence]) -> list[str]:
    settled = MeasuredEvidence | AbsentEvidence
    seen = {one.characteristic for one in evidence if isinstance(one, settled)}
    known = {name for hypothesis in hypotheses for name in hypothesis.characteristics}
    return sorted(known - seen)


def _suggestion(contenders: tuple[Contender, ...], characteristic: str, tool: Tool) -> Suggestion:
    channel = measuring_channel(contenders, characteristic, tool.uncertainty)
    doubt = entropy_bits(contender.probability for contender in contenders)
    information = min(information_bits(channel), doubt)
    return Suggestion(characteristic, tool, information, doubt, _outcomes(channel))


def _outcomes(channel: Channel) -> tuple[Outcome, ...]:
    mixture = channel.mixture
    joint = channel.leading_probabilities[channel.rows] * channel.likelihoods
    best = np.zeros_like(mixture)
    np.maximum.at(best, channel.columns, joint)
    # Where nothing at all is expected, nobody leads.
    leads = (joint > 0.0) & (joint == best[channel.columns])
    leaders = np.full(len(mixture), -1)
    # Of equals the one ranked first is written last, and stays.
    leaders[channel.columns[leads][::-1]] = channel.rows[leads][::-1]
    chances = np.bincount(leaders + 1, mixture, len(channel.leaders) + 1)[1:]
    shares = np.bincount(leaders + 1, best, len(channel.leaders) + 1)[1:]
    likeliest = np.argsort(-chances, kind="stable")[:MOST_OUTCOMES]
    return tuple(
        Outcome(
            leader=channel.leaders[row],
            probability=float(chances[row]),
            leader_probability=float(shares[row] / chances[row]),
            ranges=channel.ranges(leaders[:-1] == row),
            is_absent=bool(leaders[-1] == row),
        )
        for row in likeliest.tolist()
        if chances[row] >= RARE
    )
