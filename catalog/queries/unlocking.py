"""Unidentified parts, those first that could be what a vehicle is waiting for."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db.models import Case, Exists, IntegerField, OuterRef, Value, When

from catalog.models import KnownMark, Measurement, Part, PartMark, Vehicle
from catalog.models.parts import PartQuerySet
from catalog.queries.components import spelling
from catalog.queries.identity_hypotheses import Kind, all_kinds
from catalog.queries.needs import VehicleNeeds, needs_of_vehicles
from catalog.reckoning.identity import Hypothesis
from catalog.reckoning.limits import Limits
from catalog.reckoning.marks import match_mark

# The vehicles that come first are what a find would unlock; readings beyond so many are not seen.
VEHICLES, READINGS, MARKS, PROMISING = 12, 20_000, 2_000, 200
WITHIN = 3.0
MARK_SCORE = 0.9


@dataclass(frozen=True, slots=True)
class Lacking:
    """A component that blocks vehicles: how many others block the nearest one, and in words."""

    others: int
    words: str


@dataclass(frozen=True, slots=True)
class Unidentified:
    """The parts in the order of what they could unlock, and why the first ones stand first."""

    rows: PartQuerySet
    why: Mapping[int, str]


def unidentified_by_worth() -> Unidentified:
    """Return the unidentified parts, those first that agree with what blocks a vehicle.

    They agree by a measurement within the limits, or by a mark. A vehicle that lacks only one
    thing comes before one that lacks many.
    """
    lacking = _lacking()
    promising: dict[int, tuple[int, str]] = {}
    for part, component, agrees in (*_by_size(lacking), *_by_mark(lacking)):
        one = lacking[component]
        if part not in promising or one.others < promising[part][0]:
            promising[part] = (one.others, f"{agrees}: {one.words}")
    first = sorted(promising, key=lambda key: (promising[key][0], key))[:PROMISING]
    order = [When(pk=key, then=Value(place)) for place, key in enumerate(first)]
    measured = Measurement.objects.kept().filter(part=OuterRef("pk"))
    rows = Part.objects.for_list().unidentified().annotate(is_measured=Exists(measured))
    if order:
        rows = rows.annotate(
            place=Case(*order, default=Value(len(order)), output_field=IntegerField())
        ).order_by("place", "number_sort", "pk")
    return Unidentified(rows, {key: promising[key][1] for key in first})


def _lacking() -> dict[int, Lacking]:
    """Return the components that block one of the first vehicles, by their keys."""
    rows = Vehicle.objects.kept().select_related("vehicle_class").in_restoration_order()
    found: dict[int, Lacking] = {}
    for needs in needs_of_vehicles(rows[:VEHICLES]).values():
        for component, name in _blocking(needs).items():
            one = Lacking(needs.blocking - 1, _in_words(name, needs))
            if component not in found or one.others < found[component].others:
                found[component] = one
    return found


def _blocking(needs: VehicleNeeds) -> dict[int, str]:
    return {
        need.position.component_id: need.position.component.name
        for need in needs.needs
        if need.is_blocking
    }


def _in_words(name: str, needs: VehicleNeeds) -> str:
    if needs.blocking == 1:
        return f"{needs.vehicle} lacks only a {name}"
    return f"{needs.vehicle} lacks a {name} among {needs.blocking} things"


Hit = tuple[int, int, str]


def _by_size(lacking: Mapping[int, Lacking]) -> Iterable[Hit]:
    kinds = all_kinds()
    wanted: dict[str, list[tuple[Kind, Limits]]] = {}
    for hypothesis in kinds.hypotheses:
        kind = kinds.by_key[hypothesis.key]
        if kind.component.pk in lacking:
            for name, limits in _limited(hypothesis):
                wanted.setdefault(spelling(name), []).append((kind, limits))
    rows = Measurement.objects.kept().filter(
        part__identification_status=Part.Standing.UNIDENTIFIED, part__withdrawn_at__isnull=True
    )
    for reading in rows.order_by("-pk")[:READINGS]:
        for kind, limits in wanted.get(spelling(reading.name), ()):
            if _is_within(float(reading.value_mm), float(reading.uncertainty_mm), limits):
                words = f"{reading.name} {reading.measured} agrees with a {kind.name}"
                yield reading.part_id, kind.component.pk, words


def _limited(hypothesis: Hypothesis) -> Iterable[tuple[str, Limits]]:
    for name, limits in hypothesis.characteristics.items():
        if limits is not None:
            yield name, limits


def _is_within(value: float, uncertainty: float, limits: Limits) -> bool:
    reach = WITHIN * uncertainty
    is_above = limits.lower is None or value + reach >= limits.lower
    return is_above and (limits.upper is None or value - reach <= limits.upper)


def _by_mark(lacking: Mapping[int, Lacking]) -> Iterable[Hit]:
    known = list(KnownMark.objects.filter(component__in=list(lacking)).select_related("component"))
    rows = PartMark.objects.filter(part__identification_status=Part.Standing.UNIDENTIFIED)
    for mark in rows.order_by("-pk")[:MARKS]:
        for one in known:
            if match_mark(mark.text, one.text).score >= MARK_SCORE:
                words = f"mark “{mark.text}” agrees with “{one.text}” of a {one.component}"
                yield mark.part_id, one.component_id, words
