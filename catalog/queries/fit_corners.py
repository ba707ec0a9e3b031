"""Sets of three that must agree, such as box, brass and wheelset of one corner."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations

from catalog.models import Component
from catalog.queries.fit_facts import Readings, readings_of
from catalog.queries.fit_mates import MateFits, candidates_for
from catalog.queries.fit_pieces import Piece
from catalog.queries.fit_rules import Joint, PairFit, joints_of, pair_fit
from catalog.queries.kinds import narrower_kinds
from catalog.queries.supply import InHand
from catalog.reckoning.conformance import FITS_AT_LEAST, Fit, joint_probability

# So many of each component are combined, and so many sets shown.
COMBINED, SHOWN = 5, 6
ORDER = {Fit.FITS: 0, Fit.DOUBTFUL: 1, Fit.UNKNOWN: 2}


@dataclass(frozen=True, slots=True)
class CornerSet:
    """Three pieces, the verdict on each two of them that a rule joins, and on all together."""

    members: tuple[tuple[Component, InHand], ...]
    pairs: tuple[PairFit, ...]

    @property
    def missing(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(name for pair in self.pairs for name in pair.verdict.missing))

    @property
    def chance(self) -> float:
        return math.prod(pair.chance for pair in self.pairs if pair.verdict.as_worn is not None)

    @property
    def bounds(self) -> tuple[float, float]:
        """Return the least and the greatest chance, however the pairs depend on each other."""
        joint = joint_probability([pair.chance for pair in self.pairs])
        return joint.lower_bound, joint.upper_bound

    @property
    def fit(self) -> Fit:
        fits = {pair.verdict.fit for pair in self.pairs}
        for worst in (Fit.MISFIT, Fit.UNKNOWN):
            if worst in fits:
                return worst
        return Fit.FITS if self.chance >= FITS_AT_LEAST else Fit.DOUBTFUL

    @property
    def is_worn(self) -> bool:
        return any(pair.verdict.is_worn for pair in self.pairs)


@dataclass(frozen=True, slots=True)
class _Bench:
    """The piece, what can be combined with it, and all rules and readings between them."""

    piece: Piece
    joints: Mapping[tuple[int, int], tuple[Joint, ...]]
    readings: Readings
    known: dict[tuple[int, int], PairFit] = field(default_factory=dict)

    def pairs(self, members: Sequence[tuple[Component, InHand]]) -> tuple[PairFit, ...]:
        return tuple(
            self.pair(left, right, joints)
            for (here, left), (there, right) in combinations(members, 2)
            if (joints := self.joints.get((here.pk, there.pk)))
        )

    def pair(self, left: InHand, right: InHand, joints: tuple[Joint, ...]) -> PairFit:
        """Hold two pieces against each other, each two once."""
        key = (left.pk, right.pk)
        if key not in self.known:
            readings = (self.readings.of(left.pk), self.readings.of(right.pk))
            self.known[key] = pair_fit(left, right, joints, readings)
        return self.known[key]


def corner_sets(piece: Piece, groups: Sequence[MateFits]) -> tuple[CornerSet, ...]:
    """Return the sets of three that the piece could belong to, the best first.

    The third piece mates with the piece itself or with the second one. Sets with a pair that
    cannot go together are left out.
    """
    choices = [(group.component, _candidates(group)) for group in groups]
    trios = [*combinations(choices, 2), *_farther(piece, choices)]
    if not trios:
        return ()
    keys = {mate.pk for trio in trios for _, mates in trio for mate in mates}
    of_mates = readings_of(keys)
    components = {piece.component.pk, *(component.pk for trio in trios for component, _ in trio)}
    bench = _Bench(
        piece,
        _joints(components),
        Readings({**of_mates.by_part, piece.part.pk: piece.measured}),
    )
    found = [one for trio in trios for one in _sets(bench, trio) if one.fit != Fit.MISFIT]
    return tuple(sorted(found, key=_order)[:SHOWN])


Choice = tuple[Component, list[InHand]]


def _sets(bench: _Bench, trio: tuple[Choice, Choice]) -> Iterable[CornerSet]:
    own = (bench.piece.component, bench.piece.part)
    (first, seconds), (other, thirds) = trio
    for second in seconds:
        for third in thirds:
            members = (own, (first, second), (other, third))
            yield CornerSet(members, bench.pairs(members))


def _order(one: CornerSet) -> tuple[object, ...]:
    return ORDER[one.fit], one.is_worn, len(one.missing), -round(one.chance, 3)


def _candidates(group: MateFits) -> list[InHand]:
    """Return what fits, and of what nobody has measured the first."""
    return [pair.mate for pair in (*group.mates, *group.unknown)][:COMBINED]


def _farther(piece: Piece, choices: list[Choice]) -> Iterable[tuple[Choice, Choice]]:
    """Yield each mate's component with those that mate with it and not with the piece."""
    near = {piece.component.pk, *(component.pk for component, _ in choices)}
    for component, mates in choices:
        if not mates:
            continue
        best = mates[0]
        beyond = Piece(best, component, (component.pk,), readings_of([best.pk]))
        for other, others in candidates_for(beyond, besides=near):
            yield (component, mates), (other, others[:COMBINED])


def _joints(components: Iterable[int]) -> dict[tuple[int, int], tuple[Joint, ...]]:
    """Return the rules between each two of the components or kinds of them, from each side."""
    keys = sorted(components)
    kinds = narrower_kinds(keys)
    found: dict[tuple[int, int], list[Joint]] = {}
    for here in keys:
        for joint in joints_of([here]):
            for there in keys:
                if there != here and joint.other_component in kinds[there] | {there}:
                    found.setdefault((here, there), []).append(joint)
    return {pair: tuple(joints) for pair, joints in found.items()}
