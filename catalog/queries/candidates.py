"""Whether a part would do at a place, with its reasons: the fit of one to the other."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from catalog.models import Fitting, MatingRule, Part, Position, Trial, Vehicle
from catalog.queries.fit_facts import Readings, Tried, clearance_requirement
from catalog.queries.supply import InHand
from catalog.reckoning.conformance import Fit, Requirement, Verdict, clearance, verdict
from catalog.reckoning.conformance import Trial as TrialWords
from catalog.reckoning.fit_chances import Standing, chance_of
from catalog.reckoning.plurals import listed
from catalog.reckoning.uncertainty import Measured

OUTCOMES: dict[str, TrialWords] = {
    Trial.Outcome.WENT: TrialWords.WENT,
    Trial.Outcome.WITH_WORK: TrialWords.WENT_WITH_WORK,
    Trial.Outcome.DID_NOT_GO: TrialWords.DID_NOT_GO,
}
STANDINGS: dict[str, Standing] = {standing.value: standing for standing in Standing}
BY_FIT = {Fit.FITS: 0, Fit.UNKNOWN: 1, Fit.DOUBTFUL: 2, Fit.MISFIT: 3}
BY_STATE = {"available": 0, "repair": 1, "pattern": 2, "misfit": 3}


@dataclass(frozen=True, slots=True)
class Neighbor:
    """A part in place at the same corner, and the rule by which the two must mate."""

    rule: MatingRule
    part: int
    label: str
    is_outer: bool
    source: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    """One position of one vehicle, with all that a part is held against there.

    ``asks`` is the same for places that take the same parts equally well.
    """

    vehicle: Vehicle
    position: Position
    fitting: Fitting | None
    limits: tuple[tuple[int, Requirement], ...]
    neighbors: tuple[Neighbor, ...]
    kinds: frozenset[int]
    classes: frozenset[int]
    asks: int

    def is_for(self, part: InHand) -> bool:
        """Say whether the part is of a component and class that the place takes."""
        return part.component_id in self.kinds and (
            part.vehicle_class_id is None or part.vehicle_class_id in self.classes
        )

    def may_take(self, part: InHand) -> bool:
        """Say so unless the part is kept for another vehicle."""
        return self.is_for(part) and part.keep_with_id in (None, self.vehicle.pk)


@dataclass(frozen=True, slots=True)
class Candidate:
    """A part for a place: the state it would bring, why, and what to mind.

    Words are made when they are read, because most candidates are only ranked.
    """

    part: InHand
    state: str
    verdict: Verdict
    chance: float
    trial: Trial | None
    doubts: tuple[str, ...]

    @property
    def reason(self) -> str:
        return _reason(self.part, self.verdict, self.trial)

    @property
    def flags(self) -> tuple[str, ...]:
        """Return what to mind, though it does not exclude the part."""
        return (*_flags(self.part), *self.doubts)

    @property
    def is_usable(self) -> bool:
        return self.state == "available"


Findings = tuple[tuple[Requirement, Measured | None], ...]


@dataclass(slots=True)
class Judge:
    """Hold parts against places, each combination once."""

    readings: Readings
    tried: Tried
    known: dict[object, Candidate] = field(default_factory=dict)

    def judge(self, part: InHand, place: Place) -> Candidate:
        trial = self.tried.get((part.pk, place.vehicle.pk, place.position.pk))
        key = (part.pk, place.asks, trial.pk if trial else None)
        if key not in self.known:
            self.known[key] = self._judge(part, place, trial)
        return self.known[key]

    def _judge(self, part: InHand, place: Place, trial: Trial | None) -> Candidate:
        found = _verdict(self._findings(part, place), OUTCOMES[trial.outcome] if trial else None)
        return Candidate(
            part=part,
            state=_state(part, found),
            verdict=found,
            chance=chance_of(found, STANDINGS[part.identification_status]),
            trial=trial,
            doubts=self.readings.doubts.get(part.pk, ()),
        )

    def _findings(self, part: InHand, place: Place) -> Findings:
        measured = self.readings.of(part.pk)
        findings = [(limits, measured.get(key)) for key, limits in place.limits]
        return (*findings, *self._mating(measured, place))

    def _mating(
        self, measured: Mapping[int, Measured], place: Place
    ) -> list[tuple[Requirement, Measured | None]]:
        findings: list[tuple[Requirement, Measured | None]] = []
        for neighbor in place.neighbors:
            outer, inner = measured, self.readings.of(neighbor.part)
            if not neighbor.is_outer:
                outer, inner = inner, outer
            rule = neighbor.rule
            if rule.outer_id in outer and rule.inner_id in inner:
                words = f"{rule} of {neighbor.label}"
                gap = clearance(inner[rule.inner_id], outer[rule.outer_id])
                findings.append((clearance_requirement(rule, words, neighbor.source), gap))
        return findings


@lru_cache(maxsize=50_000)
def _verdict(findings: Findings, outcome: TrialWords | None) -> Verdict:
    """Return the verdict, reckoned once for all parts that measure alike, or are not measured."""
    return verdict(findings, trial=outcome)


def rank(candidate: Candidate, vehicle: Vehicle) -> tuple[object, ...]:
    """Sort the best first: what is ready and fits, what was kept for the vehicle, the surest."""
    part = candidate.part
    return (
        BY_STATE[candidate.state],
        candidate.verdict.trial is None,
        BY_FIT[candidate.verdict.fit],
        part.keep_with_id != vehicle.pk,
        part.usability != Part.Usability.READY,
        -round(candidate.chance, 3),
        part.vehicle_class_id is None,
        part.number_sort,
        part.pk,
    )


def _state(part: InHand, found: Verdict) -> str:
    if part.usability == Part.Usability.PATTERN:
        return "pattern"
    if found.fit == Fit.MISFIT:
        return "misfit"
    if part.usability == Part.Usability.REPAIR or part.surviving_share < 1:
        return "repair"
    return "available"


def _reason(part: InHand, found: Verdict, trial: Trial | None) -> str:
    if part.usability == Part.Usability.PATTERN:
        return "Good as a pattern for a new one."
    if trial is not None and trial.what_bound:
        return f"{found.sentence.rstrip('.')}: {trial.what_bound}."
    if found.fit != Fit.UNKNOWN:
        return found.sentence
    if not found.missing:
        return "Nothing is recorded to check it against."
    measure = f"measure {listed([f'the {name}' for name in found.missing])}"
    if found.as_worn is None:
        return f"Not measured yet: {measure}."
    return f"Nothing measured so far speaks against it: {measure}."


def _flags(part: InHand) -> tuple[str, ...]:
    told = (
        (part.surviving_share < 1, f"{part.surviving_share.normalize():%} of it survives"),
        (part.usability == Part.Usability.REPAIR and bool(part.defect), part.defect),
        (part.usability == Part.Usability.UNASSESSED, "condition not assessed yet"),
        (part.identification_status == "disputed", "what it is is disputed"),
        (part.identification_status == "proposed", "not agreed by a second person yet"),
        (part.vehicle_class_id is None, "its class is not known"),
    )
    return tuple(words for holds, words in told if holds)
