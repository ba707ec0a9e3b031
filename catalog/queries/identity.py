"""What a part may be, ranked with its reasons, and what to measure to settle it."""

from collections.abc import Iterable

from catalog.models import Characteristic, Identification, Part
from catalog.queries.identity_answers import Held, MayBe, MeasureNext, Reason, WhatItMayBe
from catalog.queries.identity_evidence import Known, evidence_of
from catalog.queries.identity_hypotheses import Kind, Kinds, all_kinds
from catalog.queries.identity_tools import instruments_for
from catalog.reckoning.identity import (
    SOMETHING_ELSE_KEY,
    Evidence,
    Factor,
    FactorEvidence,
    MarkEvidence,
    MeasuredEvidence,
    Opinion,
    Ranking,
    next_measurement,
    weigh,
)

# What is less likely than this is shown apart, with the strongest reason against it.
RULED_OUT = 0.01
SHOWN_OUT, SUGGESTED = 10, 3
BASIS = Identification.Basis
# How many bits a measurement must be worth to be asked for.
TELLING_BITS = 0.02
# An outcome as sure as this tells nobody anything, whatever share of a small doubt it takes.
FOREGONE = 0.99


def what_it_may_be(part: Part, *, without: Iterable[str] = ()) -> WhatItMayBe:
    """Weigh every component and class against what is recorded of ``part``.

    ``without`` names characteristics that somebody looked for on the piece and did not find.
    """
    kinds = all_kinds()
    known = evidence_of(part, kinds, without=without)
    ranking = weigh(kinds.hypotheses, known.evidence)
    likely = [one for one in ranking.opinions if one.probability >= RULED_OUT]
    unlikely = [one for one in ranking.opinions if one.probability < RULED_OUT]
    # Words cost more than the weighing, and of a thousand kinds only a few are shown.
    likely_told, unlikely_told = (
        tuple(_may_be(opinion, kinds, known, ranking) for opinion in shown)
        for shown in (likely, unlikely[:SHOWN_OUT])
    )
    return WhatItMayBe(
        ranking,
        likely_told,
        unlikely_told,
        len(unlikely),
        (*_again(part, known, kinds, ranking), *_next(part, kinds, known, ranking)),
        (*known.remarks, *ranking.remarks),
        known,
        _held(part),
    )


def _held(part: Part) -> Held | None:
    if part.component is None:
        return None
    kind = Kind(part.component, part.vehicle_class)
    is_agreed = part.identification_status == Part.Standing.AGREED
    return Held(kind.key, kind.name, part.get_identification_status_display(), is_agreed)


def _may_be(opinion: Opinion, kinds: Kinds, known: Known, ranking: Ranking) -> MayBe:
    key = opinion.hypothesis.key
    reasons = tuple(
        Reason(factor.in_words, factor.basis, factor.log_times)
        for factor in _factors(opinion, ranking)
    )
    return MayBe(
        key,
        opinion.hypothesis.name,
        kinds.by_key.get(key),
        opinion.probability,
        reasons,
        _basis(opinion, known.evidence, ranking),
    )


def _factors(opinion: Opinion, ranking: Ranking) -> Iterable[Factor]:
    """Return what tells it from its rival, and for the leader also from any other component."""
    stranger = ranking.stranger
    rival = opinion.factors[0].rival
    if opinion is not ranking.leader or stranger is None or rival == stranger.hypothesis:
        return opinion.factors
    pairs = zip(opinion.factors, stranger.factors, strict=True)
    return (*opinion.factors, *(mine.against(theirs) for mine, theirs in pairs))


def _basis(opinion: Opinion, evidence: Iterable[Evidence], ranking: Ranking) -> str:
    """Return on what it rests most, in the words of an identification.

    That is the factor by which it gains most over something else; rivals of its own kind share it.
    """
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
    unknown = next(
        one for one in ranking.opinions if one.hypothesis.key == SOMETHING_ELSE_KEY
    ).factors
    pairs = zip(opinion.factors, unknown, strict=True)
    gains = [mine.against(theirs) for mine, theirs in pairs]
    best = max(gains, key=lambda factor: factor.log_times)
    is_original = best.statement.startswith("came off")
    basis = kinds.get(best.statement, BASIS.OPINION)
    return BASIS.OPINION if basis == BASIS.ORIGINAL and not is_original else basis


def _again(part: Part, known: Known, kinds: Kinds, ranking: Ranking) -> Iterable[MeasureNext]:
    """Yield what has to be measured again, since its readings disagree."""
    for group in known.readings:
        if group.together.farthest is None or group.together.is_consistent:
            continue
        low, high = sorted(group.together.farthest, key=lambda reading: reading.value)
        finest = min(group.readings, key=lambda reading: reading.uncertainty_mm)
        yield MeasureNext(
            group.name,
            f"Measure the {group.name} again: {low} and {high} disagree.",
            _where(part, group.name, kinds, ranking),
            finest.instrument,
        )


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
        and all(outcome.probability < FOREGONE for outcome in suggestion.outcomes)
        and (measurable is None or suggestion.characteristic in measurable)
    ]
    return tuple(
        MeasureNext(
            one.characteristic,
            one.in_words,
            _where(part, one.characteristic, kinds, ranking),
            tools[one.characteristic][1],
            tuple(outcome.in_words for outcome in one.outcomes),
        )
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


def _where(part: Part, name: str, kinds: Kinds, ranking: Ranking) -> Characteristic | None:
    """Return the characteristic of what the part is said to be, or of the likeliest that has it."""
    if part.component_id and (part.component_id, name) in kinds.measured_at:
        return kinds.measured_at[part.component_id, name]
    for opinion in ranking.opinions:
        kind = kinds.by_key.get(opinion.hypothesis.key)
        if kind and (kind.component.pk, name) in kinds.measured_at:
            return kinds.measured_at[kind.component.pk, name]
    return None
