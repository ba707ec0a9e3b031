"""List the ways in which places that touch can come in sizes that mate."""

from collections import Counter
from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass

from catalog.reckoning.planning.sizes import ANY

# A specification, whether it is essential, and a size.
Role = tuple[str, bool, str]

# The size of every place of a cluster, ``ANY`` where the place can take no sized piece.
Labeling = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Cluster:
    """Describe places that touch: an axle, say, with the brass and box at either end.

    ``allowed`` gives the sizes that each place may take, and ``touching`` the pairs of places,
    by number, whose sizes must be equal when both hold a piece that has a size.

    >>> Cluster(("axle", "brass"), (True, True), (("4x8", "5x9"),) * 2, frozenset({(0, 1)})).kinds
    ('axle', 'brass')
    """

    kinds: tuple[str, ...]
    are_essential: tuple[bool, ...]
    allowed: tuple[tuple[str, ...], ...]
    touching: frozenset[tuple[int, int]]


def labelings(cluster: Cluster) -> tuple[Labeling, ...]:
    """Return the labelings that no other contains, one of each that hold alike.

    Every way to fill the cluster is a part of one of them: a place stays ``ANY`` only where its
    neighbors differ in size, so that nothing sized could go between.

    >>> axle = Cluster(("brass", "axle", "brass"), (True,) * 3, (("", "4x8", "5x9"),) * 3,
    ...                frozenset({(0, 1), (1, 2)}))
    >>> labelings(axle)
    (('4x8', '', '5x9'), ('4x8', '4x8', '4x8'), ('5x9', '5x9', '5x9'))
    """
    neighbors = _neighbors(cluster)
    alike: dict[object, Labeling] = {}
    for labeling in sorted(_extend((), cluster, neighbors)):
        if _is_largest(labeling, cluster, neighbors):
            alike.setdefault(frozenset(capacities(cluster, labeling).items()), labeling)
    return tuple(alike.values())


def capacities(cluster: Cluster, labeling: Labeling) -> Counter[Role]:
    """Return how many places of each role a labeling offers.

    >>> pair = Cluster(("axle", "brass"), (True, True), (("5x9",),) * 2, frozenset({(0, 1)}))
    >>> capacities(pair, ("5x9", "5x9"))[("brass", True, "5x9")]
    1
    """
    return Counter(zip(cluster.kinds, cluster.are_essential, labeling, strict=True))


def _neighbors(cluster: Cluster) -> list[Set[int]]:
    both_ways = [*cluster.touching, *((b, a) for a, b in cluster.touching)]
    return [{b for a, b in both_ways if a == place} for place in range(len(cluster.kinds))]


def _extend(labeling: Labeling, cluster: Cluster, neighbors: list[Set[int]]) -> Iterator[Labeling]:
    place = len(labeling)
    if place == len(cluster.kinds):
        yield labeling
        return
    sizes_near = {labeling[near] for near in neighbors[place] if near < place} - {ANY}
    for size in {*cluster.allowed[place], ANY}:
        if size == ANY or sizes_near <= {size}:
            yield from _extend((*labeling, size), cluster, neighbors)


def _is_largest(labeling: Labeling, cluster: Cluster, neighbors: list[Set[int]]) -> bool:
    for place, size in enumerate(labeling):
        sizes_near = {labeling[near] for near in neighbors[place]} - {ANY}
        if size == ANY and any(sizes_near <= {s} for s in cluster.allowed[place] if s != ANY):
            return False
    return True


def essential_only(held: Mapping[Role, int]) -> dict[Role, int]:
    """Return the capacities that a complete vehicle must have filled.

    >>> essential_only({("box", True, ""): 2, ("lid", False, ""): 2})
    {('box', True, ''): 2}
    """
    return {role: count for role, count in held.items() if role[1]}
