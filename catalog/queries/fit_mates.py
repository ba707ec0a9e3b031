"""Mating parts in hand for a piece: found by component and size, reckoned all at once, ranked."""

import math
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest

import numpy as np
from django.db.models import Count, Q, QuerySet

from catalog.models import Component, Fitting, Measurement, Part, Trial
from catalog.queries.fit_facts import Readings, readings_of
from catalog.queries.fit_pieces import Piece
from catalog.queries.fit_rules import Joint, PairFit, joints_of, pair_fit
from catalog.queries.kinds import narrower_kinds
from catalog.queries.supply import InHand, in_hand
from catalog.reckoning.conformance import Fit, conformance_probabilities
from catalog.reckoning.uncertainty import Measured

# What lies farther outside of the limits than this many standard uncertainties cannot fit.
FAR = 5.0
# Readings coarser than this are searched apart, so that they do not widen the search of the rest.
COARSE_MM = 0.5
COARSEST_MM = 8.0
SHOWN, NEAREST, UNREAD = 10, 6, 8
SCANNED, LOOKED_AT = 400, 40
BY_FIT = {Fit.FITS: 0, Fit.DOUBTFUL: 1, Fit.UNKNOWN: 2, Fit.MISFIT: 3}


@dataclass(frozen=True, slots=True)
class MateFits:
    """The parts of one component that the piece must mate with, ranked, and what is left out.

    ``looked_at`` is how many parts were looked through for such as nobody has measured, where
    there are more than that; those measured are found whatever their number.
    """

    component: Component
    mates: tuple[PairFit, ...]
    unknown: tuple[PairFit, ...]
    excluded: tuple[PairFit, ...]
    more_plausible: int
    more_unknown: int
    looked_at: int = 0


@dataclass(frozen=True, slots=True)
class _Search:
    """One component's parts, and the rules that join them to the piece."""

    piece: Piece
    joints: tuple[Joint, ...]
    kinds: frozenset[int]

    @property
    def joint(self) -> Joint:
        """Return the rule to search by: a required one, measured on the piece, first."""
        return min(
            self.joints,
            key=lambda one: (one.own not in self.piece.measured, not one.rule.is_required),
        )

    @property
    def own(self) -> Measured | None:
        return self.piece.measured.get(self.joint.own)


def mates_for(piece: Piece) -> tuple[MateFits, ...]:
    """Return the mating parts in hand by component, each group the best first."""
    tried = _tried(piece.part.pk)
    return tuple(
        _mates(component, search, tried)
        for component, search in _searches(piece, (), with_sources=True)
    )


def candidates_for(
    piece: Piece, *, besides: Collection[int]
) -> tuple[tuple[Component, list[InHand]], ...]:
    """Return what could mate with the piece by component, in brief and without verdicts.

    Components ``besides`` are left out. Where nothing measured could fit, those that nobody has
    measured are returned.
    """
    found = []
    for component, search in _searches(piece, besides):
        plausible = _plausible(search) if search.own else []
        best = _best(search, plausible, readings_of(plausible))[:UNREAD]
        found.append((component, in_hand(best or _unread(search)[0][:UNREAD])))
    return tuple(found)


def _searches(
    piece: Piece, besides: Collection[int], *, with_sources: bool = False
) -> Iterable[tuple[Component, _Search]]:
    by_component: dict[int, list[Joint]] = {}
    for joint in joints_of(piece.kinds, with_sources=with_sources):
        if joint.other_component not in besides:
            by_component.setdefault(joint.other_component, []).append(joint)
    components = Component.objects.in_bulk(list(by_component))
    kinds = narrower_kinds(by_component)
    for key, joints in by_component.items():
        yield components[key], _Search(piece, tuple(joints), kinds[key])


def _mates(component: Component, search: _Search, tried: Mapping[int, Trial]) -> MateFits:
    unread, looked_at = _unread(search)
    plausible = _plausible(search) if search.own else []
    nearest = _nearest(search, plausible) if search.own else []
    offered = _of_kinds(search).filter(pk__in=list(tried)).values_list("pk", flat=True)
    shown = unread[:UNREAD]
    readings = readings_of({*plausible, *nearest, *shown, *offered})
    best = _best(search, plausible, readings)
    kept = {*best, *nearest, *shown, *offered}
    pairs = [_pair(mate, search, readings, tried.get(mate.pk)) for mate in in_hand(kept)]
    pairs.sort(key=_order)
    return MateFits(
        component,
        mates=_those(pairs, Fit.FITS, Fit.DOUBTFUL),
        unknown=_those(pairs, Fit.UNKNOWN),
        excluded=_those(pairs, Fit.MISFIT),
        more_plausible=len(plausible) - len(best),
        more_unknown=len(unread) - len(shown),
        looked_at=looked_at,
    )


def _pair(mate: InHand, search: _Search, readings: Readings, trial: Trial | None) -> PairFit:
    """Hold the piece against one mate, and flag what the mate's own readings disagree about."""
    measured = (search.piece.measured, readings.of(mate.pk))
    found = pair_fit(search.piece.part, mate, search.joints, measured, trial)
    return replace(found, flags=(*found.flags, *readings.doubts.get(mate.pk, ())))


def _order(pair: PairFit) -> tuple[object, ...]:
    return (
        pair.trial is None,
        BY_FIT[pair.verdict.fit],
        pair.verdict.is_worn,
        -round(pair.chance, 3),
        pair.mate.usability != Part.Usability.READY,
        pair.mate.number_sort,
        pair.mate.pk,
    )


def _those(pairs: Sequence[PairFit], *fits: Fit) -> tuple[PairFit, ...]:
    return tuple(pair for pair in pairs if pair.verdict.fit in fits)


def _of_kinds(search: _Search) -> QuerySet[Part]:
    """Return the parts in hand of the component that the piece must mate with."""
    rows = Part.objects.kept().filter(component__in=search.kinds)
    return rows.exclude(usability__in=[Part.Usability.UNUSABLE, Part.Usability.PATTERN]).exclude(
        pk=search.piece.part.pk
    )


def _free(search: _Search, keys: Iterable[int]) -> list[int]:
    """Return those of the parts that could be used, in numerical order."""
    rows = _of_kinds(search).filter(pk__in=list(keys)).order_by("number_sort", "pk")
    return _unused(list(rows.values_list("pk", "quantity")))


def _unused(pieces: Iterable[tuple[int, int]]) -> list[int]:
    """Return those of the parts, each with its quantity, of which some are not in use."""
    counts = dict(pieces)
    active = Fitting.objects.active().filter(part__in=list(counts)).order_by()
    used = dict(active.values_list("part").annotate(Count("pk")))
    return [key for key, quantity in counts.items() if quantity > used.get(key, 0)]


def _readings(search: _Search) -> QuerySet[Measurement]:
    return Measurement.objects.kept().filter(characteristic=search.joint.other)


def _unread(search: _Search) -> tuple[list[int], int]:
    """Return parts that cannot be judged for want of a measurement, of the first few hundred.

    Asking for all of them would take a look at every part of the component. The second is how
    many were looked at, where there are more.
    """
    rows = _of_kinds(search).order_by("number_sort", "pk").values_list("pk", "quantity")
    pieces = list(rows[: SCANNED + 1])
    looked_at = SCANNED if len(pieces) > SCANNED else 0
    del pieces[SCANNED:]
    if search.own is not None:
        # Asked for one characteristic, the database would read that one of every part there is.
        readings = Measurement.objects.kept().filter(part__in=[key for key, _ in pieces])
        told = readings.order_by().values_list("part", "characteristic")
        read = {part for part, characteristic in told if characteristic == search.joint.other}
        pieces = [(key, quantity) for key, quantity in pieces if key not in read]
    return _unused(pieces), looked_at


def _window(search: _Search, doubt: float) -> tuple[float, float]:
    """Return between which readings of the mate, each ± ``doubt``, the two could still fit."""
    own, joint = search.own, search.joint
    if own is None:
        return -math.inf, math.inf
    reach = FAR * math.hypot(own.uncertainty, doubt)
    least, greatest = joint.least, joint.greatest
    low = -math.inf if least is None else least
    high = math.inf if greatest is None else greatest
    if joint.is_outer:
        return own.value - high - reach, own.value - low + reach
    return own.value + low - reach, own.value + high + reach


def _between(least: float, most: float) -> Q:
    found = Q(value_mm__gte=least) if math.isfinite(least) else Q()
    return found & Q(value_mm__lte=most) if math.isfinite(most) else found


def _plausible(search: _Search) -> list[int]:
    """Return the parts whose reading could fit, found by the index over readings."""
    readings = _readings(search).order_by()
    fine = readings.filter(_between(*_window(search, COARSE_MM)), uncertainty_mm__lte=COARSE_MM)
    coarse = readings.filter(_between(*_window(search, COARSEST_MM)), uncertainty_mm__gt=COARSE_MM)
    keys = {*fine.values_list("part", flat=True), *coarse.values_list("part", flat=True)}
    return _free(search, keys)


def _nearest(search: _Search, plausible: Iterable[int]) -> list[int]:
    """Return the nearest misses, a few on each side, so that the page can say why."""
    least, most = _window(search, COARSE_MM)
    readings = _readings(search)
    below = readings.filter(value_mm__lt=max(least, 0)).order_by("-value_mm")
    found = list(below.values_list("part", flat=True)[:LOOKED_AT])
    if math.isfinite(most):
        above = readings.filter(value_mm__gt=most).order_by("value_mm")
        # Those above and those below take turns, the nearest of each first.
        others = above.values_list("part", flat=True)[:LOOKED_AT]
        found = [key for pair in zip_longest(found, others) for key in pair if key is not None]
    free = set(_free(search, found)) - set(plausible)
    return [key for key in dict.fromkeys(found) if key in free][:NEAREST]


def _best(search: _Search, keys: Sequence[int], readings: Readings) -> list[int]:
    """Return the likeliest of many, by one reckoning over all of them and all rules."""
    if len(keys) <= SHOWN:
        return list(keys)
    chances = np.ones(len(keys))
    for joint in (one for one in search.joints if one.own in search.piece.measured):
        own = search.piece.measured[joint.own]
        others = [readings.of(key).get(joint.other) for key in keys]
        values = np.array([np.nan if one is None else one.value for one in others])
        doubts = np.array([1.0 if one is None else one.uncertainty for one in others])
        gaps = own.value - values if joint.is_outer else values - own.value
        shares = conformance_probabilities(
            gaps,
            np.hypot(doubts, own.uncertainty),
            np.nan if joint.least is None else joint.least,
            np.nan if joint.greatest is None else joint.greatest,
        )
        chances *= np.nan_to_num(shares, nan=0.5)
    order = np.argsort(-chances, kind="stable")[:SHOWN]
    return [keys[place] for place in order.tolist()]


def _tried(part: int) -> dict[int, Trial]:
    """Return the newest trial of the piece against each other part."""
    of_two = Q(part=part, other_part__isnull=False) | Q(other_part=part)
    rows = Trial.objects.kept().filter(of_two)
    newest: dict[int, Trial] = {}
    for trial in rows.order_by("tried_at", "pk"):
        mate = trial.other_part_id if trial.part_id == part else trial.part_id
        newest[mate or 0] = trial
    return newest
