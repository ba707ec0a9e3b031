"""What a part fits: open positions, mating parts in hand, and the sets that they make."""

from dataclasses import dataclass

from django.utils.text import capfirst

from catalog.models import Component, MatingRule, Part
from catalog.queries.fit_corners import CornerSet, corner_sets
from catalog.queries.fit_facts import clearance_requirement, rule_sources
from catalog.queries.fit_mates import MateFits, mates_for
from catalog.queries.fit_pieces import Piece, piece_of
from catalog.queries.fit_positions import PositionFits, positions_for_piece
from catalog.queries.fit_summary import in_short
from catalog.reckoning.conformance import Fit, Requirement, Verdict, clearance, verdict
from catalog.reckoning.uncertainty import Measured


@dataclass(frozen=True, slots=True)
class Fits:
    """Everything that a piece may go into or together with, ranked, with the reasons.

    ``within`` holds the piece against the rules that join two of its own characteristics, such
    as the two wheels of one axle; ``why_not`` says why nothing could be looked for.
    """

    piece: Piece | None
    positions: PositionFits | None = None
    mates: tuple[MateFits, ...] = ()
    sets: tuple[CornerSet, ...] = ()
    within: Verdict | None = None
    why_not: str = ""

    @property
    def summary(self) -> tuple[str, ...]:
        """Return the answer in a few sentences, for whoever reads no further."""
        if self.piece is None or self.positions is None:
            return ()
        doubts = self.piece.readings.doubts.get(self.piece.part.pk, ())
        again = "measure it again before relying on what follows."
        told = [f"{capfirst(words)}: {again}" for words in doubts]
        if self.within is not None and self.within.fit == Fit.MISFIT:
            told.append(
                f"Its own sizes do not go together. {self.within.sentence} What follows holds only "
                "once that is put right."
            )
        return (*told, *in_short(self.positions, self.mates, self.sets))

    @property
    def limits_of_sets(self) -> tuple[tuple[str, str], ...]:
        """Return the rules that the sets are held against, each with who states it."""
        asked = (one for corner in self.sets for one in corner.limits)
        return tuple(dict.fromkeys((one.name, one.source or "no source cited") for one in asked))


def what_it_fits(part: Part, *, taken_as: Component | None = None) -> Fits:
    """Return what ``part`` fits as what it is identified as, or else as ``taken_as``."""
    piece = piece_of(part, taken_as=taken_as)
    if piece is None:
        return Fits(None, why_not="Nobody has said yet what it is, so nothing can be looked for.")
    if part.usability == Part.Usability.UNUSABLE or part.is_withdrawn:
        return Fits(piece, why_not="It is not usable, so nothing is looked for.")
    if piece.part.free < 1:
        return Fits(piece, why_not="Every piece of it is already in use on a vehicle.")
    mates = mates_for(piece)
    return Fits(
        piece,
        positions=positions_for_piece(piece),
        mates=mates,
        sets=corner_sets(piece, mates),
        within=_within(piece),
    )


def _within(piece: Piece) -> Verdict | None:
    rules = MatingRule.objects.filter(
        outer__component__in=piece.kinds, inner__component__in=piece.kinds
    ).select_related("outer", "inner")
    sources = rule_sources(rule.pk for rule in rules)
    findings = [_own_finding(rule, piece, sources.get(rule.pk, "")) for rule in rules]
    return verdict(findings) if findings else None


def _own_finding(
    rule: MatingRule, piece: Piece, source: str
) -> tuple[Requirement, Measured | None]:
    outer, inner = piece.measured.get(rule.outer_id), piece.measured.get(rule.inner_id)
    asked = clearance_requirement(rule, f"{rule.outer} less {rule.inner}", source)
    return asked, clearance(inner, outer) if outer and inner else None
