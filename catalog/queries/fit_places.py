"""The places of vehicles: what is there, what is asked of a part, and what it must mate with."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace

from catalog.models import Fitting, MatingRule, Part, Position, Vehicle
from catalog.queries.candidates import Neighbor, Place
from catalog.queries.fit_facts import rule_sources, sources_of
from catalog.queries.layouts import lineage_of, lineages_from, narrowest, positions_from
from catalog.queries.structures import Structure, structure
from catalog.reckoning.conformance import Requirement
from catalog.reckoning.corners import corners

# What pages show of a fitting: whole parts would take as long to make as all the rest.
SHOWN = ("vehicle", "position", "state", "note", "changed_at", "part__number", "part__tag")

Held = Mapping[int, Fitting]


def places_of(
    vehicles: Iterable[Vehicle],
    *,
    components: Collection[int] | None = None,
    with_sources: bool = False,
) -> dict[int, tuple[Place, ...]]:
    """Return the places of each vehicle by its key, in two queries however many there are.

    ``components`` leaves all other places out; ``with_sources`` tells who states the limits and
    the mating rules, for two queries more.
    """
    vehicles = list(vehicles)
    built = structure()
    positions = positions_from(built.recorded, vehicles)
    requirements = _sourced(built, vehicles) if with_sources else built.requirements
    stated = rule_sources(rule.pk for rule in built.rules) if with_sources else {}
    around = _Surroundings(built, positions, _fittings(vehicles), requirements, stated)
    return {
        vehicle.pk: tuple(
            around.place(vehicle, position)
            for position in positions[vehicle.pk]
            if components is None or position.component_id in components
        )
        for vehicle in vehicles
    }


def positions_to_try(part: Part, vehicle: Vehicle) -> list[tuple[int, str]]:
    """Return the positions of ``vehicle`` that take what the part is, or all where nobody knows.

    Each comes with what it takes and what is there.
    """
    return [
        (place.position.pk, _to_try(place))
        for place in places_of([vehicle])[vehicle.pk]
        if part.component_id is None or part.component_id in place.kinds
    ]


def _to_try(place: Place) -> str:
    held = place.fitting
    there = f"{held.part} is {held.get_state_display()} there" if held else "open"
    return f"{place.position.code} {place.position.component}: {there}"


@dataclass(frozen=True, slots=True)
class _Surroundings:
    """What makes a place of a position; ``asked`` numbers what places ask for, as it comes up."""

    built: Structure
    positions: Mapping[int, tuple[Position, ...]]
    fittings: Mapping[int, Held]
    requirements: Mapping[int, tuple[int, Requirement]]
    stated: Mapping[int, str]
    asked: dict[object, int] = field(default_factory=dict)

    def place(self, vehicle: Vehicle, position: Position) -> Place:
        held = self.fittings.get(vehicle.pk, {})
        rows = narrowest(vehicle, position, self.built.recorded)
        neighbors = self._neighbors(vehicle, position, held)
        classes = frozenset(lineage_of(vehicle.vehicle_class_id, self.built.recorded.parents))
        mates = tuple((neighbor.rule.pk, neighbor.part) for neighbor in neighbors)
        asks = (position.component_id, classes, tuple(row.pk for row in rows), mates)
        return Place(
            vehicle=vehicle,
            position=position,
            fitting=held.get(position.pk),
            limits=tuple(self.requirements[row.pk] for row in rows),
            neighbors=neighbors,
            kinds=self.built.kinds[position.component_id],
            classes=classes,
            asks=self.asked.setdefault(asks, len(self.asked)),
        )

    def _neighbors(self, vehicle: Vehicle, position: Position, held: Held) -> tuple[Neighbor, ...]:
        rules = self.built.rules_of.get(position.component_id, ())
        if not rules:
            return ()
        near = corners(position.code)
        return tuple(
            _neighbor(rule, position, held[other.pk], self.stated.get(rule.pk, ""))
            for other in self.positions[vehicle.pk]
            if other.pk in held and near & corners(other.code)
            for rule in rules
            if {position.component_id, other.component_id} == {*_joined(rule)}
        )


def _sourced(built: Structure, vehicles: list[Vehicle]) -> dict[int, tuple[int, Requirement]]:
    lineages = lineages_from(built.recorded, vehicles)
    classes = {key for lineage in lineages.values() for key in lineage}
    keys = [
        row.pk
        for (of_class, _), rows in built.recorded.limits.items()
        if of_class in classes
        for row in rows
    ]
    sources = sources_of(keys)
    return {
        key: (
            built.requirements[key][0],
            replace(built.requirements[key][1], source=sources.get(key, "")),
        )
        for key in keys
    }


def _fittings(vehicles: list[Vehicle]) -> dict[int, dict[int, Fitting]]:
    found: dict[int, dict[int, Fitting]] = {}
    rows = Fitting.objects.active().filter(vehicle__in=vehicles).select_related("part")
    for fitting in rows.only(*SHOWN).order_by("pk"):
        found.setdefault(fitting.vehicle_id, {})[fitting.position_id] = fitting
    return found


def _neighbor(rule: MatingRule, position: Position, fitting: Fitting, source: str) -> Neighbor:
    is_outer = rule.outer.component_id == position.component_id
    return Neighbor(rule, fitting.part_id, fitting.part.label, is_outer, source)


def _joined(rule: MatingRule) -> tuple[int, int]:
    return (rule.outer.component_id, rule.inner.component_id)
