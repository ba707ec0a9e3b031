"""Components by whatever name people have for them."""

import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Self

from django.db.models import OuterRef, Q, QuerySet, Subquery, Sum

from catalog.models import (
    Characteristic,
    Component,
    ComponentAlias,
    MatingRule,
    Part,
    Position,
    Vehicle,
    VehicleClass,
)
from catalog.models.components import ComponentQuerySet


@dataclass(frozen=True, slots=True)
class ComponentChoice:
    """What a search-as-you-type list needs of a component."""

    pk: int
    name: str
    aliases: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ComponentNames:
    """Every name of every component, gathered once for as many look-ups as are wanted."""

    names: Mapping[str, Component]
    aliases: Mapping[str, tuple[Component, ...]]

    @classmethod
    def gather(cls) -> Self:
        names: dict[str, Component] = {}
        aliases: dict[str, tuple[Component, ...]] = {}
        for component in components_to_choose():
            names[spelling(component.name)] = component
            for alias in component.aliases.all():
                key = spelling(alias.name)
                aliases[key] = (*aliases.get(key, ()), component)
        return cls(names, aliases)

    def called(self, words: str) -> tuple[Component, ...]:
        """Return the components of this name, in the singular or plural; a name before an alias."""
        for key in _singulars(spelling(words)):
            if key in self.names:
                return (self.names[key],)
            if key in self.aliases:
                return self.aliases[key]
        return ()

    def find(self, words: str) -> Component | None:
        """Return the one component of this name; none when two go by it, so that people choose."""
        found = self.called(words)
        return found[0] if len(found) == 1 else None


def find_component(words: str) -> Component | None:
    """Find a component by name or alias, whatever the case, hyphens and spaces."""
    return ComponentNames.gather().find(words)


def components_to_choose() -> ComponentQuerySet:
    return Component.objects.kept().prefetch_related("aliases").order_by("name")


def component_choices() -> tuple[ComponentChoice, ...]:
    return tuple(
        ComponentChoice(
            component.pk, component.name, tuple(alias.name for alias in component.aliases.all())
        )
        for component in components_to_choose()
    )


def characteristics_to_choose() -> QuerySet[Characteristic]:
    kept = Characteristic.objects.filter(component__withdrawn_at__isnull=True)
    named = kept.select_related("component").prefetch_related("component__aliases")
    return named.order_by("component__name", "sequence", "name")


def components_listed() -> ComponentQuerySet:
    """Return components for a list, with how many pieces of each are in hand."""
    pieces = Part.objects.kept().filter(component=OuterRef("pk")).order_by().values("component")
    counted = pieces.annotate(total=Sum("quantity")).values("total")
    return Component.objects.for_list().annotate(piece_count=Subquery(counted))


def holding_words(components: ComponentQuerySet, words: str) -> ComponentQuerySet:
    """Choose the components of which every word stands in the name or in one alias."""
    for word in words.split():
        called = ComponentAlias.objects.filter(name__icontains=word).values("component")
        components = components.filter(Q(name__icontains=word) | Q(pk__in=called))
    return components


def pieces_in_hand(component: Component) -> tuple[int, int]:
    """Return how many parts are of this component, and how many pieces those are."""
    quantities = component.parts.kept().values_list("quantity", flat=True)
    return len(quantities), sum(quantities)


def places_of(component: Component) -> dict[VehicleClass | Vehicle, list[Position]]:
    """Return the positions that the component fills, by the class or vehicle that has them."""
    rows = component.positions.select_related("vehicle_class", "vehicle")
    places: dict[VehicleClass | Vehicle, list[Position]] = {}
    for position in rows.order_by("vehicle_class__designation", "vehicle__label", "sequence"):
        owner = position.vehicle_class or position.vehicle
        if owner is not None and not owner.is_withdrawn:
            places.setdefault(owner, []).append(position)
    return places


def rules_of(component: Component) -> QuerySet[MatingRule]:
    """Return the mating rules in which the component is the outer or the inner piece."""
    rules = MatingRule.objects.filter(Q(outer__component=component) | Q(inner__component=component))
    return rules.select_related("outer__component", "inner__component").prefetch_related(
        "citations__source"
    )


def names_by_usage(component: Component) -> dict[str, list[str]]:
    """Return the other names of a component by the usage they belong to, in words."""
    names: dict[str, list[str]] = {}
    for usage in ComponentAlias.Usage:
        if own := [alias.name for alias in component.aliases.all() if alias.usage == usage]:
            names["also called" if usage == "other" else str(usage.label)] = own
    return names


def namesakes_of(component: Component) -> QuerySet[ComponentAlias]:
    """Return the aliases of other components that this one goes by too: false friends."""
    own = component.aliases.values("name")
    others = ComponentAlias.objects.exclude(component=component)
    shared = others.filter(Q(name__in=own) | Q(name__iexact=component.name))
    return shared.filter(component__withdrawn_at__isnull=True).select_related("component")


def spelling(words: str) -> str:
    """Return ``Axle-Box`` as ``axlebox``: what is left when case, accents and gaps are ignored."""
    parts = unicodedata.normalize("NFKD", words.casefold())
    return "".join(letter for letter in parts if letter.isalnum())


def _singulars(key: str) -> Iterable[str]:
    if not key:
        return
    yield key
    for ending in ("s", "es"):
        if key.endswith(ending):
            yield key.removesuffix(ending)
