"""What is known of parts and places before anyone judges whether they go together."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from django.db.models import FloatField, Q
from django.db.models.functions import Cast

from catalog.models import Citation, MatingRule, Measurement, Specification, Trial, Vehicle
from catalog.reckoning.conformance import Requirement
from catalog.reckoning.uncertainty import Measured, agreement, combine

# SQLite takes 250,000 values a statement; fewer keep the statement quick to read.
KEYS_AT_ONCE = 10_000


# Reckoning is done in floats, and turning each into a decimal first takes longer than the rest.
IN_FLOATS = (Cast("value_mm", FloatField()), Cast("uncertainty_mm", FloatField()))

# For each part and characteristic: the readings, the instrument of each, and their name.
Repeats = dict[int, dict[int, list[tuple[Measured, int | None, str]]]]


@dataclass(frozen=True, slots=True)
class Readings:
    """The combined measurements of parts, and what their repeats disagree about.

    ``doubts`` says it in words, ``disagreeing`` by the keys of the characteristics.
    """

    by_part: Mapping[int, Mapping[int, Measured]]
    doubts: Mapping[int, tuple[str, ...]] = field(default_factory=dict)
    disagreeing: Mapping[int, tuple[int, ...]] = field(default_factory=dict)

    def of(self, part: int) -> Mapping[int, Measured]:
        return self.by_part.get(part, {})


def readings_of(parts: Iterable[int]) -> Readings:
    """Return what is measured on the parts, repeats of one characteristic combined into one."""
    repeats: Repeats = {}
    keys = sorted(set(parts))
    for start in range(0, len(keys), KEYS_AT_ONCE):
        rows = (
            Measurement.objects.kept()
            .filter(part__in=keys[start : start + KEYS_AT_ONCE], characteristic__isnull=False)
            .order_by("pk")
            .values_list("part", "characteristic", "name", *IN_FLOATS, "instrument")
        )
        for part, characteristic, name, value, uncertainty, instrument in rows:
            reading = (Measured(value, uncertainty), instrument, name)
            repeats.setdefault(part, {}).setdefault(characteristic, []).append(reading)
    return _combined(repeats)


def _combined(repeats: Repeats) -> Readings:
    by_part: dict[int, dict[int, Measured]] = {}
    doubts: dict[int, tuple[str, ...]] = {}
    disagreeing: dict[int, tuple[int, ...]] = {}
    for part, taken in repeats.items():
        by_part[part] = {key: _one(readings) for key, readings in taken.items()}
        repeated = ((key, _doubt(readings)) for key, readings in taken.items() if readings[1:])
        doubtful = {key: words for key, words in repeated if words}
        if doubtful:
            doubts[part], disagreeing[part] = tuple(doubtful.values()), tuple(doubtful)
    return Readings(by_part, doubts, disagreeing)


def _one(readings: list[tuple[Measured, int | None, str]]) -> Measured:
    measured = [reading for reading, _, _ in readings]
    if len(measured) == 1:
        return measured[0]
    # All readings with one rule share its divisions, which no repeating averages away.
    is_one_tool = len({instrument for _, instrument, _ in readings}) == 1
    shared = min(reading.uncertainty for reading in measured) if is_one_tool else 0.0
    return combine(*measured, least_uncertainty=shared)


def _doubt(readings: list[tuple[Measured, int | None, str]]) -> str:
    found = agreement(*(reading for reading, _, _ in readings))
    return "" if found.is_consistent else f"readings of {readings[0][2]} disagree"


def requirement_of(limits: Specification) -> Requirement:
    """Return the limits as reckoning takes them; ``sources_of`` says who states them."""
    return Requirement(
        limits.characteristic.name,
        lower=_mm(limits.lower_mm),
        upper=_mm(limits.upper_mm),
        worn_lower=_mm(limits.worn_lower_mm),
        worn_upper=_mm(limits.worn_upper_mm),
        is_required=limits.is_required,
    )


def sources_of(specifications: Iterable[int]) -> dict[int, str]:
    """Return in words which sources state each of these limits."""
    return _cited("specification", specifications)


def rule_sources(rules: Iterable[int]) -> dict[int, str]:
    """Return in words which sources state each of these mating rules."""
    return _cited("mating_rule", rules)


def _cited(behind: str, keys: Iterable[int]) -> dict[int, str]:
    rows = Citation.objects.filter(**{f"{behind}__in": list(keys)}).select_related("source")
    found: dict[int, list[str]] = {}
    for citation in rows.order_by("pk"):
        found.setdefault(getattr(citation, f"{behind}_id"), []).append(str(citation))
    return {key: "; ".join(words) for key, words in found.items()}


def clearance_requirement(rule: MatingRule, words: str, source: str = "") -> Requirement:
    """Return what a rule asks of a clearance; ``rule_sources`` says who states it."""
    unsourced = f"no source cited; {rule.note}" if rule.note else ""
    return Requirement(
        words,
        lower=_mm(rule.least_mm),
        upper=_mm(rule.greatest_mm),
        worn_upper=_mm(rule.worn_greatest_mm),
        is_required=rule.is_required,
        source=source or unsourced,
    )


def mates_of(components: Iterable[int]) -> set[int]:
    """Return the components that some rule joins to one of these."""
    keys = list(components)
    touching = Q(outer__component__in=keys) | Q(inner__component__in=keys)
    rows = MatingRule.objects.filter(touching).values_list("outer__component", "inner__component")
    return {component for pair in rows for component in pair}


Tried = dict[tuple[int, int, int], Trial]


def trials_at(vehicles: Iterable[Vehicle]) -> Tried:
    """Return the newest trial of each part at each position, by part, vehicle and position."""
    rows = Trial.objects.kept().filter(vehicle__in=list(vehicles), position__isnull=False)
    newest: Tried = {}
    for trial in rows.order_by("tried_at", "pk"):
        newest[trial.part_id, trial.vehicle_id, trial.position_id] = trial  # type: ignore[index]
    return newest


def _mm(limit: object) -> float | None:
    return None if limit is None else float(limit)  # type: ignore[arg-type]
