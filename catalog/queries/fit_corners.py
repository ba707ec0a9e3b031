"""Sets of three that must agree, such as box, brass and wheelset of one corner.

Pieces that lie in one another, as a brass in its journal box, have run together, and come
before a better fit among strangers (common practice, no source).
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations

from django.db.models import Q

from catalog.models import Component, Part
from catalog.queries.fit_facts import Readings, readings_of, rule_sources
from catalog.queries.fit_mates import MateFits, candidates_for
from catalog.queries.fit_pieces import Piece
from catalog.queries.fit_rules import Joint, PairFit, joints_of, pair_fit
from catalog.queries.kinds import narrower_kinds
from catalog.queries.supply import InHand, in_hand
from catalog.reckoning.conformance import (
    FITS_AT_LEAST,
    Fit,
    Requirement,
    joint_probability,
)

# So many of each component are combined, and so many sets shown.
COMBINED, SHOWN = 5, 6
ORDER = {Fit.FITS: 0, Fit.DOUBTFUL: 1, Fit.UNKNOWN: 2}


@dataclass(frozen=True, slots=True)
class CornerSet:
    """Three pieces, the verdict on each two of them that a rule joins, and on all together."""

    members: tuple[tuple[Component, InHand], ...]
    pairs: tuple[PairFit, ...]
    nested: tuple[tuple[InHand, InHand], ...] = ()

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
    def limits(self) -> Iterator[Requirement]:
        """Yield what the clearances that could be reckoned are held against."""
        for pair in self.pairs:
            for line in pair.verdict.characteristics:
                if line.measured is not None:
                    yield line.requirement

    @property
    def is_worn(self) -> bool:
        return any(pair.verdict.is_worn for pair in self.pairs)

    @property
    def lies_in(self) -> tuple[str, ...]:
        """Say which piece of the set lies in which other one."""
        return tuple(f"{inner} lies in {outer}" for inner, outer in self.nested)


@dataclass(frozen=True, slots=True)
class _Bench:
    """The piece, what can be combined with it, and all rules and readings between them."""

    piece: Piece
    joints: Mapping[tuple[int, int], tuple[Joint, ...]]
    readings: Readings
    inside: Mapping[int, int]
    known: dict[tuple[int, int], PairFit] = field(default_factory=dict)

    def pairs(self, members: Sequence[tuple[Component, InHand]]) -> tuple[PairFit, ...]:
        return tuple(
            self.pair(left, right, joints)
            for (here, left), (there, right) in combinations(members, 2)
            if (joints := self.joints.get((here.pk, there.pk)))
        )

    def nested(
        self, members: Sequence[tuple[Component, InHand]]
    ) -> tuple[tuple[InHand, InHand], ...]:
        """Return which of the pieces lies in which other one."""
        pieces = {piece.pk: piece for _, piece in members}
        return tuple(
            (piece, pieces[self.inside[piece.pk]])
            for piece in pieces.values()
            if self.inside.get(piece.pk) in pieces
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
    if not groups:
        return ()
    kin = _kin(piece)
    choices = [(group.component, _few(_offered(group), group.component, kin)) for group in groups]
    trios = [*combinations(choices, 2), *_farther(piece, choices, kin)]
    if not trios:
        return ()
    keys = {mate.pk for trio in trios for _, mates in trio for mate in mates}
    of_mates = readings_of(keys)
    components = {piece.component.pk, *(component.pk for trio in trios for component, _ in trio)}
    bench = _Bench(
        piece,
        _joints(components),
        Readings({**of_mates.by_part, piece.part.pk: piece.measured}),
        _inside([piece.part.pk, *keys]),
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
            yield CornerSet(members, bench.pairs(members), bench.nested(members))


def _order(one: CornerSet) -> tuple[object, ...]:
    chance = round(one.chance, 3)
    return ORDER[one.fit], -len(one.nested), one.is_worn, len(one.missing), -chance


def _offered(group: MateFits) -> list[InHand]:
    """Return what fits, and then what nobody has measured."""
    return [pair.mate for pair in (*group.mates, *group.unknown)]


def _kin(piece: Piece) -> list[InHand]:
    """Return what lies in the piece, and what it lies in."""
    own = piece.part.pk
    around = Part.objects.kept().filter(Q(inside=own) | Q(contents=own)).order_by()
    keys = list(around.values_list("pk", flat=True))
    return [one for one in in_hand(keys) if one.free > 0]


def _few(mates: list[InHand], component: Component, kin: Sequence[InHand]) -> list[InHand]:
    """Return the first few, before them those of the component that are kin to the piece."""
    if not kin:
        return mates[:COMBINED]
    kinds = narrower_kinds([component.pk])[component.pk]
    found = [one for one in kin if one.component_id in kinds]
    return list({one.pk: one for one in (*found, *mates)}.values())[:COMBINED]


def _inside(keys: Iterable[int]) -> dict[int, int]:
    """Return in which part each of these lies."""
    nested = Part.objects.filter(pk__in=list(keys), inside__isnull=False).order_by()
    rows = nested.values_list("pk", "inside")
    return {part: outer for part, outer in rows if outer is not None}


def _farther(
    piece: Piece, choices: list[Choice], kin: Sequence[InHand]
) -> Iterable[tuple[Choice, Choice]]:
    """Yield each mate's component with those that mate with it and not with the piece."""
    near = {piece.component.pk, *(component.pk for component, _ in choices)}
    for component, mates in choices:
        if not mates:
            continue
        best = mates[0]
        beyond = Piece(best, component, (component.pk,), readings_of([best.pk]))
        for other, others in candidates_for(beyond, besides=near):
            yield (component, mates), (other, _few(others, other, kin))


def _joints(components: Iterable[int]) -> dict[tuple[int, int], tuple[Joint, ...]]:
    """Return the rules between each two of the components or kinds of them, from each side."""
    keys = sorted(components)
    kinds = narrower_kinds(keys)
    found: dict[tuple[int, int], list[Joint]] = {}
    for here in keys:
        for joint in joints_of([here]):
            for there in keys:
                if there != here and joint.other_component in kinds[there]:
                    found.setdefault((here, there), []).append(joint)
    sources = rule_sources({joint.rule.pk for joints in found.values() for joint in joints})
    return {
        pair: tuple(replace(joint, source=sources.get(joint.rule.pk, "")) for joint in joints)
        for pair, joints in found.items()
    }
