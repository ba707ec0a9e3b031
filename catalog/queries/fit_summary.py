"""What a piece fits in a few sentences, for whoever reads no further."""

from collections.abc import Iterable, Sequence

from catalog.queries.fit_corners import CornerSet
from catalog.queries.fit_mates import MateFits
from catalog.queries.fit_positions import PlaceGroup, PositionFits
from catalog.queries.fit_rules import PairFit
from catalog.reckoning.conformance import Fit
from catalog.reckoning.identity_words import percent
from catalog.reckoning.plurals import listed


def in_short(
    positions: PositionFits, mates: Iterable[MateFits], sets: Sequence[CornerSet]
) -> tuple[str, ...]:
    """Say where the piece goes, what of each component goes with it, and the best set, each why."""
    told = [_of_positions(positions), *(_of_mates(group) for group in mates), *_of_sets(sets)]
    return tuple(told)


def _of_positions(found: PositionFits) -> str:
    if not found.groups:
        out = found.excluded[0].candidate.reason if found.excluded else ""
        out = out or (found.classes_out[0].reason if found.classes_out else "")
        return f"No open position takes it. {out}".rstrip()
    best = found.groups[0]
    where = f"{best.codes} of {best.vehicle}"
    if best.verdict.trial is None and best.verdict.fit != Fit.FITS:
        return f"Nearest is {where}. {best.candidate.reason}"
    sure = "" if best.verdict.trial else f" ({percent(best.candidate.chance)} sure)"
    others = sum(len(one.places) for one in _also(best, found.groups))
    more = f", and {others} more open position{'s' * (others > 1)}" if others else ""
    return f"{where}{more}{sure}. {best.candidate.reason}"


def _also(best: PlaceGroup, groups: Sequence[PlaceGroup]) -> list[PlaceGroup]:
    return [one for one in groups if one is not best and one.verdict.fit == Fit.FITS]


def _of_mates(group: MateFits) -> str:
    """Return a sentence on the best, one on what nobody has measured, one on what is excluded."""
    more = len(group.unknown) - 1 + group.more_unknown
    told = [
        *(f"{one.mate} {_said(one)}" for one in group.mates[:1]),
        *(f"{one.mate} {_said(one)}{_and(more)}" for one in group.unknown[:1]),
        *(f"{one.mate} {_said(one)}{_and(len(group.excluded) - 1)}" for one in group.excluded[:1]),
    ]
    name = group.component.name.capitalize()
    return f"{name} {' '.join(told)}" if told else f"{name}: none is in hand."


def _said(pair: PairFit) -> str:
    """Turn the reason into what is said of the mate: it fits, does not fit, is unknown."""
    words = pair.reason[:1].lower() + pair.reason[1:]
    return words if words.startswith(("fits", "does")) else f"is {words}"


def _and(more: int) -> str:
    return f" So {'is' if more == 1 else 'are'} {more} more." if more > 0 else ""


def _of_sets(sets: Sequence[CornerSet]) -> Iterable[str]:
    """Return a sentence on the best set, and where only wear lets it agree, one on a newer one."""
    agreeing = [one for one in sets if one.fit == Fit.FITS]
    if not agreeing:
        return
    best = agreeing[0]
    kept = f" ({listed(best.lies_in)})" if best.nested else ""
    worn = ", by the limits of wear only" if best.is_worn else ""
    yield f"As a set it agrees with {_pieces(best)}{kept}{worn} ({percent(best.chance)} sure)."
    newer = next((one for one in agreeing if not one.is_worn), None) if best.is_worn else None
    if newer is not None:
        yield f"As new it agrees with {_pieces(newer)} ({percent(newer.chance)} sure)."


def _pieces(one: CornerSet) -> str:
    return listed([f"{component} {part}" for component, part in one.members[1:]])
