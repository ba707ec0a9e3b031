"""What the planner is told of vehicles and parts, gathered from the record."""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from catalog.models import Component, MatingRule, Removal, Vehicle
from catalog.queries.candidates import Candidate, Place
from catalog.queries.fit_bench import Bench
from catalog.queries.makings import READY_ALONE, CountOn, Held, Makings, makings_of
from catalog.queries.structures import structure
from catalog.queries.supply import InHand
from catalog.reckoning.assignment import Fit, Mating, Piece, Shop
from catalog.reckoning.assignment import Place as PlanPlace
from catalog.reckoning.corners import corners
from catalog.reckoning.efforts import HOURS_OF_A_REPAIR, Effort, effort_of
from catalog.reckoning.mating_pairs import clashing

# Vehicles that nobody has put in order come after all that somebody has.
LAST = 1_000_000


@dataclass(frozen=True, slots=True)
class PlanFacts:
    """The planner's shop, and what its keys mean."""

    shop: Shop
    places: Mapping[str, Place]
    parts: Mapping[str, InHand]
    candidates: Mapping[tuple[str, str], Candidate]
    repairs: Mapping[str, Effort]
    makings: Makings


def facts_of(
    bench: Bench,
    vehicles: list[Vehicle],
    *,
    count_on: CountOn = READY_ALONE,
    held: Held = MappingProxyType({}),
) -> PlanFacts:
    """Return what to plan with: parts that could be used now, and what else the plan counts on.

    Each repair and each new piece costs the hours that the component's record gives. ``held``
    keeps patterns for one vehicle.
    """
    usable = ("available", "repair") if count_on.repairs else ("available",)
    places = {key_of(place): place for own in bench.places.values() for place in own}
    kinds = _kinds(bench, places)
    candidates = dict(_candidates(bench, places, kinds, usable))
    parts = {str(part.pk): part for own in bench.parts.values() for part in own}
    fixed = {key: str(p.fitting.part_id) for key, p in places.items() if p.fitting}
    matings = _matings(bench, candidates)
    mating = {name for rule in matings for name in (rule.component_a, rule.component_b)}
    repairs = _repairs(candidates.values())
    makings = makings_of(bench, places, kinds, count_on, held)
    shop = Shop(
        places=tuple(_plan_place(key, place, kinds, mating) for key, place in places.items()),
        pieces=tuple(_pieces(parts, fixed, repairs)),
        fits=tuple(Fit(part, kind, c.chance) for (part, kind), c in candidates.items()),
        matings=matings,
        fixed=fixed,
        ranks={str(v.pk): _rank(v) for v in vehicles},
        routes=makings.routes,
    )
    of_places = {
        (part, key): candidates[part, kind]
        for key, kind in kinds.items()
        for part in parts
        if (part, kind) in candidates
    }
    return PlanFacts(shop, places, parts, of_places, repairs, makings)


def key_of(place: Place) -> str:
    return f"{place.vehicle.pk}/{place.position.pk}"


def _kinds(bench: Bench, places: Mapping[str, Place]) -> dict[str, str]:
    """Return one name for places that take the same parts equally well, so that they are merged."""
    tried = {(vehicle, position) for _, vehicle, position in bench.judge.tried}
    names: dict[object, str] = {}
    return {
        key: key
        if place.neighbors or (place.vehicle.pk, place.position.pk) in tried
        else names.setdefault(
            (place.position.component_id, place.asks, place.classes), f"kind {key}"
        )
        for key, place in places.items()
    }


def _candidates(
    bench: Bench, places: Mapping[str, Place], kinds: Mapping[str, str], usable: Collection[str]
) -> Iterator[tuple[tuple[str, str], Candidate]]:
    seen: set[str] = set()
    for key, place in places.items():
        if kinds[key] in seen:
            continue
        seen.add(kinds[key])
        for component in place.kinds:
            for part in bench.parts.get(component, ()):
                if place.is_for(part):
                    found = bench.judge.judge(part, place)
                    if found.state in usable:
                        yield (str(part.pk), kinds[key]), found


def _plan_place(key: str, place: Place, kinds: Mapping[str, str], mating: set[str]) -> PlanPlace:
    component = str(place.position.component_id)
    return PlanPlace(
        key,
        str(place.vehicle.pk),
        component,
        is_essential=place.position.is_essential,
        corner=" ".join(sorted(corners(place.position.code))) if component in mating else "",
        specification=kinds[key],
    )


def _repairs(candidates: Iterable[Candidate]) -> dict[str, Effort]:
    """Return the effort for each part that has to be repaired first."""
    parts = {one.part.pk: one.part for one in candidates if one.state == "repair"}
    if not parts:
        return {}
    kinds = Component.objects.in_bulk({part.component_id for part in parts.values()})
    return {str(key): _repair(kinds[part.component_id]) for key, part in parts.items()}


def _repair(component: Component) -> Effort:
    known = (component.repair_hours, component.repair_cost)
    return effort_of(*known, unless_known=HOURS_OF_A_REPAIR)


def _pieces(
    parts: Mapping[str, InHand], fixed: Mapping[str, str], repairs: Mapping[str, Effort]
) -> Iterator[Piece]:
    placed = Counter(fixed.values())
    came_off = dict(Removal.objects.filter(put_back_at__isnull=True).values_list("part", "vehicle"))
    for key, part in parts.items():
        yield Piece(
            key,
            str(part.component_id),
            quantity=part.free + placed[key],
            came_off=_vehicle_key(came_off.get(part.pk)),
            held_for=_vehicle_key(part.keep_with_id),
            cost=repairs[key].tenths if key in repairs else 0,
        )
    for key, count in placed.items():
        if key not in parts:
            yield Piece(key, "", quantity=count)


def _vehicle_key(pk: int | None) -> str | None:
    return None if pk is None else str(pk)


def _rank(vehicle: Vehicle) -> int:
    return LAST if vehicle.restoration_order is None else vehicle.restoration_order


def _matings(bench: Bench, candidates: Mapping[tuple[str, str], Candidate]) -> tuple[Mating, ...]:
    components = {p.position.component_id for own in bench.places.values() for p in own}
    usable = {int(part) for part, _ in candidates}
    rules = (
        rule
        for rule in structure().rules
        if rule.is_required and {rule.outer.component_id, rule.inner.component_id} <= components
    )
    found = (_mating(rule, bench, usable) for rule in rules)
    return tuple(mating for mating in found if mating.conflicts)


def _mating(rule: MatingRule, bench: Bench, usable: set[int]) -> Mating:
    outer, inner = (
        [pk for pk in sorted(usable) if side in bench.judge.readings.of(pk)]
        for side in (rule.outer_id, rule.inner_id)
    )
    greatest = rule.worn_greatest_mm if rule.worn_greatest_mm is not None else rule.greatest_mm
    pairs = clashing(
        [bench.judge.readings.of(pk)[rule.outer_id] for pk in outer],
        [bench.judge.readings.of(pk)[rule.inner_id] for pk in inner],
        least=None if rule.least_mm is None else float(rule.least_mm),
        greatest=None if greatest is None else float(greatest),
    )
    return Mating(
        str(rule.outer.component_id),
        str(rule.inner.component_id),
        frozenset((str(outer[a]), str(inner[b])) for a, b in pairs),
    )
