"""What a part may be, ranked with its reasons, and what to measure to settle it."""

from collections.abc import Iterable
from dataclasses import dataclass

from catalog.models import Characteristic, Component, Identification, Instrument, Part, VehicleClass
from catalog.queries.identity_evidence import Known, evidence_of
from catalog.queries.identity_hypotheses import Kind, Kinds, all_kinds
from catalog.queries.identity_tools import instruments_for
from catalog.reckoning.identity import (
    Evidence,
    FactorEvidence,
    MarkEvidence,
    MeasuredEvidence,
    Opinion,
    Ranking,
    Suggestion,
    next_measurement,
    weigh,
)
from catalog.reckoning.identity_words import percent

# What is less likely than this is shown apart, with the strongest reason against it.
RULED_OUT = 0.01
SHOWN_OUT, SUGGESTED = 10, 3
BASIS = Identification.Basis
# How far from even the logarithm of a factor must be to count as a reason, and how many bits a
# measurement must be worth to be asked for.
NOTABLE, TELLING_BITS = 0.05, 0.02


@dataclass(frozen=True, slots=True)
class Reason:
    """A factor in words, and whether it speaks for the candidate."""

    words: str
    basis: str
    is_for: bool
    strength: float


@dataclass(frozen=True, slots=True)
class MayBe:
    """One thing that the part may be; ``kind`` is empty for something else."""

    key: str
    name: str
    kind: Kind | None
    probability: float
    reasons: tuple[Reason, ...]
    basis: str

    @property
    def component(self) -> Component | None:
        return self.kind.component if self.kind else None

    @property
    def vehicle_class(self) -> VehicleClass | None:
        return self.kind.vehicle_class if self.kind else None

    @property
    def chance(self) -> str:
        return percent(self.probability)

    @property
    def reasons_for(self) -> tuple[Reason, ...]:
        return tuple(one for one in self.reasons if one.is_for)

    @property
    def reasons_against(self) -> tuple[Reason, ...]:
        return tuple(one for one in self.reasons if not one.is_for)

    @property
    def worst(self) -> str:
        """Return the strongest reason against it."""
        against = min(self.reasons_against, key=lambda one: one.strength, default=None)
        return against.words if against else "Few places in the collection take one."

    @property
    def confidence(self) -> str:
        sure = Identification.Confidence
        return sure.PROBABLE if self.probability >= 0.75 else sure.GUESS

    @property
    def in_words(self) -> str:
        """Return the reasons as they are written down with a proposal."""
        told = [f"Reckoned at {self.chance} from what is recorded."]
        return "\n".join([*told, *(f"{one.words}." for one in self.reasons)])


@dataclass(frozen=True, slots=True)
class MeasureNext:
    """A measurement worth taking: where, with what, and what each outcome would tell."""

    suggestion: Suggestion
    characteristic: Characteristic | None
    instrument: Instrument | None

    @property
    def name(self) -> str:
        return self.suggestion.characteristic

    @property
    def outcomes(self) -> tuple[str, ...]:
        return tuple(outcome.in_words for outcome in self.suggestion.outcomes)


@dataclass(frozen=True, slots=True)
class WhatItMayBe:
    """Everything that the sheet of a part says about what it may be."""

    ranking: Ranking
    candidates: tuple[MayBe, ...]
    ruled_out: tuple[MayBe, ...]
    ruled_out_count: int
    next: tuple[MeasureNext, ...]
    remarks: tuple[str, ...]
    known: Known

    @property
    def sentence(self) -> str:
        if not self.known.evidence:
            return "Nothing is recorded yet that tells one component from another."
        return self.ranking.in_words

    @property
    def leader(self) -> MayBe:
        return self.candidates[0]

    def candidate(self, key: str) -> MayBe | None:
        found = (one for one in (*self.candidates, *self.ruled_out) if one.key == key)
        return next(found, None)


def what_it_may_be(part: Part) -> WhatItMayBe:
    """Weigh every component and class against what is recorded of ``part``."""
    kinds = all_kinds()
    known = evidence_of(part, kinds)
    ranking = weigh(kinds.hypotheses, known.evidence)
    likely = [one for one in ranking.opinions if one.probability >= RULED_OUT]
    unlikely = [one for one in ranking.opinions if one.probability < RULED_OUT]
    # Words cost more than the weighing, and of a thousand kinds only a few are shown.
    likely_told, unlikely_told = (
        tuple(_may_be(opinion, kinds, known) for opinion in shown)
        for shown in (likely, unlikely[:SHOWN_OUT])
    )
    return WhatItMayBe(
        ranking,
        likely_told,
        unlikely_told,
        len(unlikely),
        _next(part, kinds, known, ranking),
        (*known.remarks, *ranking.remarks),
        known,
    )


def _may_be(opinion: Opinion, kinds: Kinds, known: Known) -> MayBe:
    key = opinion.hypothesis.key
    reasons = tuple(
        Reason(factor.in_words, factor.basis, factor.log_times > 0, factor.log_times)
        for factor in opinion.factors
        if abs(factor.log_times) > NOTABLE
    )
    return MayBe(
        key,
        opinion.hypothesis.name,
        kinds.by_key.get(key),
        opinion.probability,
        reasons,
        _basis(opinion, known.evidence),
    )


def _basis(opinion: Opinion, evidence: Iterable[Evidence]) -> str:
    """Return on what the strongest factor for it rests, in the words of an identification."""
    kinds = {
        one.statement: basis
        for one in evidence
        for kind, basis in (
            (MeasuredEvidence, BASIS.DIMENSIONS),
            (MarkEvidence, BASIS.MARK),
            (FactorEvidence, BASIS.ORIGINAL),
        )
        if isinstance(one, kind)
    }
    best = max(opinion.factors, key=lambda factor: factor.log_times)
    is_original = best.statement.startswith("came off")
    basis = kinds.get(best.statement, BASIS.OPINION)
    return BASIS.OPINION if basis == BASIS.ORIGINAL and not is_original else basis


def _next(part: Part, kinds: Kinds, known: Known, ranking: Ranking) -> tuple[MeasureNext, ...]:
    tools = instruments_for(kinds.hypotheses)
    ranked = next_measurement(
        kinds.hypotheses,
        known.evidence,
        tools={name: tool for name, (tool, _) in tools.items()},
    )
    measurable = _measurable(part, kinds)
    worth_it = [
        suggestion
        for suggestion in ranked
        if suggestion.information_bits >= TELLING_BITS
        and (measurable is None or suggestion.characteristic in measurable)
    ]
    return tuple(
        MeasureNext(one, _where(one.characteristic, kinds, ranking), tools[one.characteristic][1])
        for one in worth_it[:SUGGESTED]
    )


def _measurable(part: Part, kinds: Kinds) -> set[str] | None:
    """Return what the part can be measured at, or nothing when anything goes.

    An identified part is measured at what its component has; to measure something else,
    somebody has to say first that it is something else.
    """
    if part.component_id is None:
        return None
    return {name for component, name in kinds.measured_at if component == part.component_id}


def _where(name: str, kinds: Kinds, ranking: Ranking) -> Characteristic | None:
    """Return the characteristic of the likeliest component that has it."""
    for opinion in ranking.opinions:
        kind = kinds.by_key.get(opinion.hypothesis.key)
        if kind and (kind.component.pk, name) in kinds.measured_at:
            return kinds.measured_at[kind.component.pk, name]
    return None
