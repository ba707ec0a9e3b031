"""Components by whatever name people have for them."""

import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Self

from catalog.models import Component
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
