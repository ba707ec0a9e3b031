"""Which components are kinds of which: a link-and-pin drawhead is a drawhead."""

from collections.abc import Iterable, Mapping

from catalog.models import Component


def narrower_kinds(components: Iterable[int]) -> dict[int, frozenset[int]]:
    """Return, for each component's key, its own and those of all its kinds, in one query."""
    return kinds_within(dict(Component.objects.values_list("pk", "broader")), components)


def kinds_within(
    broader: Mapping[int, int | None], components: Iterable[int]
) -> dict[int, frozenset[int]]:
    children: dict[int, list[int]] = {}
    for key, above in broader.items():
        if above is not None:
            children.setdefault(above, []).append(key)
    return {component: _below(component, children) for component in components}


def _below(component: int, children: Mapping[int, list[int]]) -> frozenset[int]:
    found: set[int] = set()
    waiting = [component]
    while waiting:
        key = waiting.pop()
        if key not in found:
            found.add(key)
            waiting += children.get(key, [])
    return frozenset(found)
