"""The places of vehicles: what is there, what is asked of a part, and what it must mate with."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field

from catalog.models import Fitting, MatingRule, Position, Vehicle
from catalog.queries.candidates import Neighbor, Place
from catalog.queries.fit_facts import mating_rules, requirement_of
from catalog.queries.kinds import narrower_kinds
from catalog.queries.positions import Layout, layout_of
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
    """Return the places of each vehicle by its key, in so many queries however many there are.

    ``components`` leaves all other places out.
    """
    vehicles = list(vehicles)
    layout = layout_of(vehicles, components=components, with_sources=with_sources)
    around = _surroundings(vehicles, layout, with_sources=with_sources)
    return {
        vehicle.pk: tuple(
            around.place(vehicle, position) for position in around.layout.positions[vehicle.pk]
        )
        for vehicle in vehicles
    }


@dataclass(frozen=True, slots=True)
class _Surroundings:
    """What makes a place of a position; ``asked`` numbers what places ask for, as it comes up."""

    layout: Layout
    kinds: Mapping[int, frozenset[int]]
    rules: list[MatingRule]
    fittings: Mapping[int, Held]
    requirements: Mapping[int, tuple[int, Requirement]]
    asked: dict[object, int] = field(default_factory=dict)

    def place(self, vehicle: Vehicle, position: Position) -> Place:
        held = self.fittings.get(vehicle.pk, {})
        rows = self.layout.limits[vehicle.pk][position.pk]
        limits = tuple(self.requirements[row.pk] for row in rows)
        neighbors = self._neighbors(vehicle, position, held)
        classes = frozenset(self.layout.lineages[vehicle.vehicle_class_id])
        mates = tuple((neighbor.rule.pk, neighbor.part) for neighbor in neighbors)
        asks = (position.component_id, classes, limits, mates)
        return Place(
            vehicle=vehicle,
            position=position,
            fitting=held.get(position.pk),
            limits=limits,
            neighbors=neighbors,
            kinds=self.kinds[position.component_id],
            classes=classes,
            asks=self.asked.setdefault(asks, len(self.asked)),
        )

    def _neighbors(self, vehicle: Vehicle, position: Position, held: Held) -> tuple[Neighbor, ...]:
        rules = [rule for rule in self.rules if position.component_id in _joined(rule)]
        if not rules:
            return ()
        near = corners(position.code)
        return tuple(
            _neighbor(rule, position, held[other.pk])
            for other in self.layout.positions[vehicle.pk]
            if other.pk in held and near & corners(other.code)
            for rule in rules
            if {position.component_id, other.component_id} == {*_joined(rule)}
        )


def _surroundings(vehicles: list[Vehicle], layout: Layout, *, with_sources: bool) -> _Surroundings:
    components = {p.component_id for own in layout.positions.values() for p in own}
    rows = {
        row.pk: row
        for at_position in layout.limits.values()
        for rows in at_position.values()
        for row in rows
    }
    return _Surroundings(
        layout,
        narrower_kinds(components),
        mating_rules(components),
        _fittings(vehicles),
        {
            pk: (row.characteristic_id, requirement_of(row, with_source=with_sources))
            for pk, row in rows.items()
        },
    )


def _fittings(vehicles: list[Vehicle]) -> dict[int, dict[int, Fitting]]:
    found: dict[int, dict[int, Fitting]] = {}
    rows = Fitting.objects.active().filter(vehicle__in=vehicles).select_related("part")
    for fitting in rows.only(*SHOWN).order_by("pk"):
        found.setdefault(fitting.vehicle_id, {})[fitting.position_id] = fitting
    return found


def _neighbor(rule: MatingRule, position: Position, fitting: Fitting) -> Neighbor:
    is_outer = rule.outer.component_id == position.component_id
    return Neighbor(rule, fitting.part_id, fitting.part.label, is_outer)


def _joined(rule: MatingRule) -> tuple[int, int]:
    return (rule.outer.component_id, rule.inner.component_id)
