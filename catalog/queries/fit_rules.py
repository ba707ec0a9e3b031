"""Two pieces held against each other by the rules that join their components."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from django.urls import reverse
from django.utils.http import urlencode

from catalog.models import MatingRule, Trial
from catalog.queries.candidates import OUTCOMES
from catalog.queries.fit_facts import clearance_requirement, rule_sources
from catalog.queries.structures import structure
from catalog.queries.supply import InHand
from catalog.reckoning.conformance import Fit, Requirement, Verdict, clearance, verdict
from catalog.reckoning.uncertainty import Measured

ADVISORY = "the rule that joins the two is advisory"


@dataclass(frozen=True, slots=True)
class Joint:
    """A mating rule seen from one of its two sides: ``own`` is ours, ``other`` the mate's."""

    rule: MatingRule
    is_outer: bool
    source: str = ""

    @property
    def own(self) -> int:
        return self.rule.outer_id if self.is_outer else self.rule.inner_id

    @property
    def other(self) -> int:
        return self.rule.inner_id if self.is_outer else self.rule.outer_id

    @property
    def other_component(self) -> int:
        side = self.rule.inner if self.is_outer else self.rule.outer
        return side.component_id

    @property
    def least(self) -> float | None:
        return None if self.rule.least_mm is None else float(self.rule.least_mm)

    @property
    def greatest(self) -> float | None:
        """Return the greatest clearance that a worn pair may have."""
        worn = self.rule.worn_greatest_mm
        most = self.rule.greatest_mm if worn is None else worn
        return None if most is None else float(most)

    def own_name(self) -> str:
        return str(self.rule.outer if self.is_outer else self.rule.inner)

    def other_name(self) -> str:
        return str(self.rule.inner if self.is_outer else self.rule.outer)


@dataclass(frozen=True, slots=True)
class PairFit:
    """A mate for a piece: the verdict on the two, and what to mind.

    ``wanting`` are the readings that the verdict waits for, each as part and characteristic.
    """

    piece: int
    mate: InHand
    verdict: Verdict
    flags: tuple[str, ...]
    trial: Trial | None = None
    wanting: tuple[tuple[int, int], ...] = ()

    @property
    def chance(self) -> float:
        joint = self.verdict.as_worn
        return 0.0 if joint is None else joint.product

    @property
    def reason(self) -> str:
        if self.trial is not None and self.trial.what_bound:
            return f"{self.verdict.sentence.rstrip('.')}: {self.trial.what_bound}."
        return self.verdict.sentence

    @property
    def figures(self) -> str:
        """Return every clearance that could be reckoned."""
        lines = [line for line in self.verdict.characteristics if line.measured is not None]
        return "; ".join(f"{line.requirement.name} {line.measured}" for line in lines)

    @property
    def bench_url(self) -> str:
        which = {"part": self.piece, "other": self.mate.pk}
        return f"{reverse('fit-bench')}?{urlencode(which)}"


def joints_of(kinds: Iterable[int], *, with_sources: bool = False) -> list[Joint]:
    """Return the rules that join one of these components to another, from our side.

    ``with_sources`` tells who states them, which takes a query.
    """
    joints = _joints(set(kinds))
    if not with_sources:
        return joints
    sources = rule_sources(joint.rule.pk for joint in joints)
    return [replace(joint, source=sources.get(joint.rule.pk, "")) for joint in joints]


def _joints(own: set[int]) -> list[Joint]:
    return [
        Joint(rule, side == "outer")
        for rule in structure().rules
        for side, here, there in (
            ("outer", rule.outer.component_id, rule.inner.component_id),
            ("inner", rule.inner.component_id, rule.outer.component_id),
        )
        if here in own and there not in own
    ]


def pair_fit(
    piece: InHand,
    mate: InHand,
    joints: Iterable[Joint],
    readings: tuple[Mapping[int, Measured], Mapping[int, Measured]],
    trial: Trial | None = None,
) -> PairFit:
    """Hold ``mate`` against ``piece`` by the rules; ``readings`` are those of the two, in order.

    Where only advisory rules join the two, these decide, and a flag says so.
    """
    joints = list(joints)
    is_advised = bool(joints) and not any(joint.rule.is_required for joint in joints)
    findings = [one for joint in joints for one in _findings(joint, (piece, mate), readings)]
    if is_advised:
        findings = [(replace(asked, is_required=True), gap) for asked, gap in findings]
    found = verdict(findings, trial=OUTCOMES[trial.outcome] if trial else None)
    flags = (*_flags(mate), *[ADVISORY] * is_advised)
    wanting = _wanting(joints, (piece, mate), readings) if found.fit == Fit.UNKNOWN else ()
    return PairFit(piece.pk, mate, found, flags, trial, wanting)


def _wanting(
    joints: list[Joint],
    pair: tuple[InHand, InHand],
    readings: tuple[Mapping[int, Measured], Mapping[int, Measured]],
) -> tuple[tuple[int, int], ...]:
    deciding = [joint for joint in joints if joint.rule.is_required] or joints
    return tuple(
        (part.pk, characteristic)
        for joint in deciding
        for part, characteristic, known in (
            (pair[0], joint.own, readings[0]),
            (pair[1], joint.other, readings[1]),
        )
        if characteristic not in known
    )


def _findings(
    joint: Joint,
    pair: tuple[InHand, InHand],
    readings: tuple[Mapping[int, Measured], Mapping[int, Measured]],
) -> list[tuple[Requirement, Measured | None]]:
    """Return the clearance of the two, or each reading that it still wants."""
    own, other = readings[0].get(joint.own), readings[1].get(joint.other)
    asked = clearance_requirement(joint.rule, str(joint.rule), joint.source)
    if own is not None and other is not None:
        inner, outer = (other, own) if joint.is_outer else (own, other)
        return [(asked, clearance(inner, outer))]
    sides = ((joint.own_name(), pair[0], own), (joint.other_name(), pair[1], other))
    return [
        (replace(asked, name=f"the {name} of {part}"), None)
        for name, part, reading in sides
        if reading is None
    ]


def _flags(mate: InHand) -> tuple[str, ...]:
    told = (
        (mate.usability == "repair", mate.defect or "needs repair"),
        (mate.surviving_share < 1, "only part of it survives"),
        (mate.identification_status == "disputed", "what it is is disputed"),
        (mate.identification_status == "proposed", "not agreed by a second person yet"),
        (mate.free < 1, "in use on a vehicle"),
    )
    return tuple(words for holds, words in told if holds)
