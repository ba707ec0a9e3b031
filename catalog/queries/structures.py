"""How all classes are built, remembered until somebody changes it.

Positions, limits, kinds and mating rules change once a month, and every page of needs wants
all of them; the newest history entries tell in one query whether they are still the same.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalog.models import (
    Characteristic,
    Component,
    Deviation,
    MatingRule,
    Position,
    Specification,
    VehicleClass,
)
from catalog.queries.fit_facts import requirement_of
from catalog.queries.kinds import kinds_within
from catalog.queries.layouts import Recorded
from catalog.queries.positions import all_recorded
from catalog.queries.remembered import remembered
from catalog.reckoning.conformance import Requirement

FROM = (VehicleClass, Position, Deviation, Specification, Characteristic, Component, MatingRule)


@dataclass(frozen=True, slots=True)
class Structure:
    """Everything that holds for classes; ``requirements`` are by the key of the limits.

    Its rows are shared by everybody who asks: they are read and never changed.
    """

    recorded: Recorded
    kinds: Mapping[int, frozenset[int]]
    rules: tuple[MatingRule, ...]
    rules_of: Mapping[int, tuple[MatingRule, ...]]
    requirements: Mapping[int, tuple[int, Requirement]]


def structure() -> Structure:
    """Return how all classes are built, in one query while nothing of it changes."""
    return remembered("structure", FROM, _read)


def _read() -> Structure:
    recorded = all_recorded()
    broader = dict(Component.objects.values_list("pk", "broader"))
    limits = [row for rows in recorded.limits.values() for row in rows]
    rules = tuple(MatingRule.objects.select_related("outer", "inner").order_by("pk"))
    return Structure(
        recorded,
        kinds_within(broader, broader),
        rules,
        _by_component(rules),
        {row.pk: (row.characteristic_id, requirement_of(row)) for row in limits},
    )


def _by_component(rules: Iterable[MatingRule]) -> dict[int, tuple[MatingRule, ...]]:
    """Return the rules that join each component to another."""
    found: dict[int, tuple[MatingRule, ...]] = {}
    for rule in rules:
        for component in {rule.outer.component_id, rule.inner.component_id}:
            found[component] = (*found.get(component, ()), rule)
    return found
