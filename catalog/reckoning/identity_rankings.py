"""Every hypothesis weighed against the evidence, likeliest first, with each factor kept."""

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from catalog.reckoning.identity_evidence import (
    SOMETHING_ELSE_KEY,
    AbsentEvidence,
    Evidence,
    Hypothesis,
    IdentityError,
    MeasuredEvidence,
    SomethingElse,
    StatedEvidence,
)
from catalog.reckoning.identity_words import (
    ranking_in_words,
    times_in_words,
    with_article,
)

# How often a piece brought in proves to be nothing that the catalog's classes use:
# a judgment, common practice without a source.
SOMETHING_ELSE_SHARE = 0.1

_BEFORE = "before any evidence"


@dataclass(frozen=True, slots=True)
class Factor:
    """What one piece of evidence does for one hypothesis, set against a rival.

    ``log_likelihood`` is for the hypothesis and ``log_rival`` for the rival: the leader
    of the ranking, or for the leader itself the one that comes next.
    """

    statement: str
    basis: str
    log_likelihood: float
    log_rival: float
    hypothesis: Hypothesis
    rival: Hypothesis | None

    @property
    def log_times(self) -> float:
        """Return the logarithm of how many times likelier the hypothesis makes the evidence."""
        return self.log_likelihood - self.log_rival

    def against(self, other: "Factor") -> "Factor":
        """Set it against what the same evidence does for the ``other`` hypothesis."""
        return replace(self, log_rival=other.log_likelihood, rival=other.hypothesis)

    @property
    def in_words(self) -> str:
        """Say the factor as one would across the bench."""
        name = with_article(self.hypothesis)
        if self.rival is None:
            return f"{self.statement}: nothing to compare {name} with"
        rival = with_article(self.rival)
        times = times_in_words(abs(self.log_times))
        if not times:
            return f"{self.statement}: as likely for {name} as for {rival}"
        comparison = "likelier" if self.log_times > 0.0 else "less likely"
        return f"{self.statement}: {times} {comparison} for {name} than for {rival}"


@dataclass(frozen=True, slots=True)
class Opinion:
    """One hypothesis with its probability and the factors that gave it."""

    hypothesis: Hypothesis
    log_probability: float
    factors: tuple[Factor, ...]

    @property
    def probability(self) -> float:
        """Return the probability, which may be too small for a float and then is zero."""
        return math.exp(self.log_probability)


@dataclass(frozen=True, slots=True)
class Ranking:
    """All hypotheses, likeliest first, and remarks on evidence that could not count."""

    opinions: tuple[Opinion, ...]
    remarks: tuple[str, ...] = ()

    @property
    def leader(self) -> Opinion:
        """Return the likeliest hypothesis."""
        return self.opinions[0]

    @property
    def doubt_bits(self) -> float:
        """Return the entropy of the ranking: 0 is certain, 1 is an even choice of two."""
        return entropy_bits([opinion.probability for opinion in self.opinions])

    @property
    def in_words(self) -> str:
        """Say what the piece is likeliest to be, and what comes next."""
        return ranking_in_words([(one.hypothesis, one.probability) for one in self.opinions])

    @property
    def stranger(self) -> Opinion | None:
        """Return the likeliest opinion that is of another component than the leader."""
        component = self.leader.hypothesis.component
        others = (one for one in self.opinions[1:] if one.hypothesis.component != component)
        return next(others, None)


@dataclass(frozen=True, slots=True)
class _Bench:
    """The candidates with the logarithm of every factor: a row each, the prior first."""

    candidates: tuple[Hypothesis, ...]
    evidence: tuple[Evidence, ...]
    statements: tuple[str, ...]
    rows: tuple[tuple[float, ...], ...]

    def opinions(self) -> tuple[Opinion, ...]:
        weights = [math.fsum(row) for row in self.rows]
        total = _log_sum(weights)
        order = sorted(range(len(weights)), key=lambda i: (-weights[i], self.candidates[i].key))
        # The leader is set against the next one, and everyone else against the leader.
        rivals = [order[1] if len(order) > 1 else None, *[order[0]] * (len(order) - 1)]
        return tuple(
            Opinion(self.candidates[place], weights[place] - total, self.factors(place, rival))
            for place, rival in zip(order, rivals, strict=True)
        )

    def factors(self, place: int, rival: int | None) -> tuple[Factor, ...]:
        one = self.candidates[place]
        before = "how many places the classes have for it"
        if isinstance(one, SomethingElse):
            before = "how often a piece is nothing of these classes"
        bases = [before, *(evidence.basis(one) for evidence in self.evidence)]
        rivals = self.rows[place] if rival is None else self.rows[rival]
        against = None if rival is None else self.candidates[rival]
        kept = zip(self.statements, bases, self.rows[place], rivals, strict=True)
        return tuple(Factor(*values, one, against) for values in kept)


def weigh(
    hypotheses: Sequence[Hypothesis],
    evidence: Iterable[Evidence],
    *,
    something_else_share: float = SOMETHING_ELSE_SHARE,
) -> Ranking:
    """Rank what a piece may be by Bayes' theorem, the evidence taken as independent.

    *Something else* is always among the hypotheses and takes ``something_else_share`` of
    the prior; the others share the rest by their ``prior_weight``. Sums are of logarithms
    and rounded once, so that neither the order of the evidence nor a vanishing
    probability changes the ranking. A measurement of a feature that no hypothesis has
    tells nothing: it is left out, and a remark says so.

    >>> from catalog.reckoning.limits import Limits
    >>> from catalog.reckoning.uncertainty import Measured
    >>> boxes = [
    ...     Hypothesis("e", "class E journal box", characteristics={"bore": Limits(63.5, 65.5)}),
    ...     Hypothesis("b", "class B journal box", characteristics={"bore": Limits(65.0, 67.0)}),
    ... ]
    >>> ranking = weigh(boxes, [MeasuredEvidence("bore", Measured(64.1, 0.5))])
    >>> ranking.in_words
    'Almost certainly a class E journal box (96 %); next a class B journal box (4 %).'
    >>> ranking.leader.factors[1].in_words
    ...     # doctest: +NORMALIZE_WHITESPACE
    'bore 64.1 ± 0.5 mm: 25 times likelier for a class E journal box
    than for a class B journal box'
    """
    given = tuple(evidence)
    check_question(hypotheses, given, something_else_share)
    telling, remarks = _telling(hypotheses, given)
    candidates = (*hypotheses, SomethingElse())
    priors = _log_priors(hypotheses, something_else_share)
    columns = [priors, *([one.log_likelihood(h) for h in candidates] for one in telling)]
    statements = (_BEFORE, *(one.statement for one in telling))
    bench = _Bench(candidates, telling, statements, tuple(zip(*columns, strict=True)))
    return Ranking(bench.opinions(), remarks)


def check_question(
    hypotheses: Sequence[Hypothesis], evidence: Sequence[Evidence], something_else_share: float
) -> None:
    """Refuse, in words, a question that has no sensible answer."""
    if not 0.0 < something_else_share < 1.0:
        raise IdentityError(
            f"The share of something else is {something_else_share:g}; "
            "it must lie between 0 and 1, for no list of components is complete."
        )
    keys = Counter(hypothesis.key for hypothesis in hypotheses)
    keys[SOMETHING_ELSE_KEY] += 1
    for key in (key for key, count in keys.items() if count > 1):
        raise IdentityError(f"The hypothesis {key} is given twice.")
    _check_evidence(keys, evidence)


def entropy_bits(probabilities: Iterable[float]) -> float:
    """Return −Σ p log₂ p (C. E. Shannon, A Mathematical Theory of Communication, 1948, §6).

    >>> entropy_bits([0.5, 0.25, 0.25])
    1.5
    """
    return math.fsum(-p * math.log2(p) for p in probabilities if p > 0.0)


def _check_evidence(keys: Counter[str], evidence: Sequence[Evidence]) -> None:
    seen = Counter(
        e.characteristic for e in evidence if isinstance(e, MeasuredEvidence | AbsentEvidence)
    )
    for characteristic in (name for name, count in seen.items() if count > 1):
        raise IdentityError(
            f"The {characteristic} is given more than once; combine repeated measurements first."
        )
    for one in (e for e in evidence if isinstance(e, StatedEvidence)):
        for key in (key for key in one.factors if key not in keys):
            raise IdentityError(f"{one.statement}: there is no hypothesis {key}.")


def _telling(
    hypotheses: Sequence[Hypothesis], evidence: Sequence[Evidence]
) -> tuple[tuple[Evidence, ...], tuple[str, ...]]:
    useless = [
        e
        for e in evidence
        if isinstance(e, MeasuredEvidence) and not any(h.has(e.characteristic) for h in hypotheses)
    ]
    remarks = tuple(
        f"No component here has a {e.characteristic}. It goes by another name, or the piece is "
        "something else."
        for e in useless
    )
    return tuple(e for e in evidence if e not in useless), remarks


def _log_priors(hypotheses: Sequence[Hypothesis], something_else_share: float) -> list[float]:
    if not hypotheses:
        return [0.0]
    total = math.fsum(hypothesis.prior_weight for hypothesis in hypotheses)
    known = math.log1p(-something_else_share)
    shares = [known + math.log(h.prior_weight) - math.log(total) for h in hypotheses]
    return [*shares, math.log(something_else_share)]


def _log_sum(logarithms: Sequence[float]) -> float:
    most = max(logarithms)
    return most + math.log(math.fsum(math.exp(one - most) for one in logarithms))
