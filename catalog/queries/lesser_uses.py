"""Parts that are promised to vehicles which come later, and could be freed for an earlier one."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from catalog.models import Fitting, Part, Vehicle
from catalog.queries.candidates import BY_STATE, Candidate, Judge, Place
from catalog.queries.fit_facts import readings_of, trials_at
from catalog.queries.supply import InHand

# Vehicles that nobody has put in order come after all that somebody has.
LAST = 1_000_000


@dataclass(frozen=True, slots=True)
class LesserUse:
    """A part that a later vehicle has been promised, and how it is promised."""

    part: InHand
    holder: Vehicle
    words: str


@dataclass(slots=True)
class LesserUses:
    """What could be freed, each piece given away once only."""

    by_component: Mapping[int, list[LesserUse]]
    judge: Judge

    def take(self, place: Place) -> tuple[LesserUse, Candidate] | None:
        """Return the first piece that would do at the place, and offer it no more."""
        for component in sorted(place.kinds):
            for use in self.by_component.get(component, []):
                if not place.is_for(use.part):
                    continue
                found = self.judge.judge(use.part, place)
                if BY_STATE[found.state] == BY_STATE["available"]:
                    self.by_component[component].remove(use)
                    return use, found
        return None


def lesser_uses(vehicles: Iterable[Vehicle], components: Iterable[int]) -> dict[int, LesserUses]:
    """Return for each vehicle the parts of these components promised to those later in order."""
    vehicles, kinds = list(vehicles), list(components)
    found = [*_reserved(kinds), *_kept(kinds)]
    judge = Judge(readings_of(use.part.pk for use in found), trials_at(vehicles))
    return {vehicle.pk: LesserUses(_later(vehicle, found), judge) for vehicle in vehicles}


def _later(vehicle: Vehicle, found: Iterable[LesserUse]) -> dict[int, list[LesserUse]]:
    by_component: dict[int, list[LesserUse]] = {}
    for use in found:
        if _comes_later(use.holder, vehicle):
            by_component.setdefault(use.part.component_id, []).append(use)
    return by_component


def _reserved(kinds: list[int]) -> list[LesserUse]:
    rows = (
        Fitting.objects.filter(state=Fitting.State.RESERVED, part__component__in=kinds)
        .exclude(part__keep_with__isnull=False)
        .select_related("part__location", "vehicle", "position")
        .order_by("pk")
    )
    return [
        LesserUse(
            _in_hand(row.part),
            row.vehicle,
            f"reserved for {row.position.code} of {row.vehicle}, which comes later",
        )
        for row in rows
    ]


def _kept(kinds: list[int]) -> list[LesserUse]:
    rows = (
        Part.objects.kept()
        .filter(component__in=kinds, keep_with__isnull=False)
        .exclude(pk__in=Fitting.objects.active().values("part"))
        .select_related("location", "keep_with")
        .in_numerical_order()
    )
    return [
        LesserUse(_in_hand(part), part.keep_with, f"kept for {part.keep_with}, which comes later")
        for part in rows
        if part.keep_with is not None
    ]


def _comes_later(holder: Vehicle, vehicle: Vehicle) -> bool:
    return _rank(holder) > _rank(vehicle)


def _rank(vehicle: Vehicle) -> int:
    return LAST if vehicle.restoration_order is None else vehicle.restoration_order


# The columns that a part in hand takes over as they are.
SAME = (
    *("pk", "number", "tag", "number_sort", "component_id", "vehicle_class_id", "usability"),
    *("surviving_share", "quantity", "keep_with_id", "identification_status", "defect"),
)


def _in_hand(part: Part) -> InHand:
    columns: dict[str, Any] = {name: getattr(part, name) for name in SAME}
    return InHand(**columns, location=part.location.path if part.location else None, used=0)
