"""Describe what vehicles lack, in slots and clusters, so that like vehicles are seen as one."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import product

from catalog.reckoning.planning.facts import Place, Shop
from catalog.reckoning.planning.labelings import Cluster
from catalog.reckoning.planning.sizes import ANY, Sizes
from catalog.reckoning.planning.unions import joined


@dataclass(frozen=True, slots=True)
class Slot:
    """Describe places that take the same pieces and touch nothing open.

    ``alone`` names the one place of a slot whose neighbors do not come in plain sizes.

    >>> Slot("box", "journal box", True, ("",)).alone
    ''
    """

    kind: str
    component: str
    is_essential: bool
    sizes: tuple[str, ...]
    alone: str = ""


@dataclass(frozen=True, slots=True)
class Frame:
    """Describe all that one vehicle lacks, with the places behind each slot and cluster.

    ``touching`` holds the pairs of places of ``alone`` slots that mate pair by pair.

    >>> Frame("31", {}, {}).is_full
    True
    """

    vehicle: str
    slots: Mapping[Slot, tuple[str, ...]]
    clusters: Mapping[Cluster, tuple[tuple[str, ...], ...]]
    touching: tuple[tuple[str, str], ...] = field(default=())

    @property
    def is_full(self) -> bool:
        """Say whether every essential place is filled already."""
        some_slot = any(slot.is_essential for slot in self.slots)
        return not some_slot and not any(any(c.are_essential) for c in self.clusters)

    @property
    def shape(self) -> object:
        """Return what is equal for vehicles that lack the same."""
        slots = frozenset((slot, len(places)) for slot, places in self.slots.items())
        return slots, frozenset((c, len(copies)) for c, copies in self.clusters.items())


def read_frames(shop: Shop, sizes: Sizes) -> dict[str, Frame]:
    """Return what each vehicle lacks, the vehicles in their order.

    >>> from catalog.reckoning.planning.sizes import read_sizes
    >>> shop = Shop((Place("31/hook", "31", "hook", is_essential=True),), (), ())
    >>> read_frames(shop, read_sizes(shop))["31"].is_full
    False
    """
    places: dict[str, list[Place]] = defaultdict(list)
    for place in shop.places:
        places[place.vehicle].append(place)
    return {vehicle: _frame(vehicle, places[vehicle], shop, sizes) for vehicle in shop.vehicles}


def frames_as_planned(shop: Shop, sizes: Sizes, plan: Mapping[str, str]) -> dict[str, Frame]:
    """Return what vehicles lack if each place a plan fills must be filled in the same size.

    Whatever then goes there mates, so that no place touches another any more. Of the places
    that the plan leaves empty, those that are neither essential nor mate with others remain.

    >>> from catalog.reckoning.planning.sizes import read_sizes
    >>> shop = Shop((Place("31/hook", "31", "hook", is_essential=True),), (), ())
    >>> len(frames_as_planned(shop, read_sizes(shop), {"31/hook": "a"})["31"].slots)
    1
    """
    slots: dict[str, dict[Slot, list[str]]] = {name: defaultdict(list) for name in shop.vehicles}
    for place in shop.places:
        is_free = not place.is_essential and place.component not in sizes.family_of
        if place.key in plan or (is_free and place.key not in shop.fixed):
            size = sizes.of(plan[place.key], place.component) if place.key in plan else ANY
            slot = Slot(place.kind, place.component, place.is_essential, (size,))
            slots[place.vehicle][slot].append(place.key)
    return {
        vehicle: Frame(vehicle, {slot: tuple(keys) for slot, keys in own.items()}, {})
        for vehicle, own in slots.items()
    }


def _frame(vehicle: str, places: list[Place], shop: Shop, sizes: Sizes) -> Frame:
    places = sorted(places, key=lambda p: (p.component, p.kind, p.is_essential, p.corner, p.key))
    edges = list(_edges(places, sizes))
    allowed = _allowed(places, edges, shop.fixed, sizes)
    lacking = {place.key: place for place in places if place.key not in shop.fixed}
    open_edges = [(a, b) for a, b in edges if a in lacking and b in lacking]
    groups: dict[str, list[Place]] = defaultdict(list)
    roots = joined(open_edges)
    for place in lacking.values():
        groups[roots.get(place.key, place.key)].append(place)
    slots: dict[Slot, list[str]] = defaultdict(list)
    clusters: dict[Cluster, list[tuple[str, ...]]] = defaultdict(list)
    pairwise: set[str] = set()
    for group in groups.values():
        cluster = _cluster(group, open_edges, allowed, sizes) if len(group) > 1 else None
        if cluster is not None:
            clusters[cluster].append(tuple(place.key for place in group))
            continue
        for place in group:
            alone = place.key if len(group) > 1 else ""
            pairwise |= {alone}
            slot = Slot(place.kind, place.component, place.is_essential, allowed[place.key], alone)
            slots[slot].append(place.key)
    return Frame(
        vehicle,
        {slot: tuple(keys) for slot, keys in slots.items()},
        {cluster: tuple(copies) for cluster, copies in clusters.items()},
        tuple((a, b) for a, b in open_edges if a in pairwise),
    )


def _edges(places: list[Place], sizes: Sizes) -> Iterator[tuple[str, str]]:
    """Yield the pairs of places of one vehicle that share a corner under a mating rule."""
    at: dict[str, list[Place]] = defaultdict(list)
    for place in places:
        for corner in set(place.corner.split()):
            at[corner].append(place)
    found = {
        (min(a.key, b.key), max(a.key, b.key))
        for neighbors in at.values()
        for a, b in product(neighbors, repeat=2)
        if a.key != b.key and (a.component, b.component) in sizes.clashes
    }
    yield from sorted(found)


def _allowed(
    places: list[Place], edges: list[tuple[str, str]], fixed: Mapping[str, str], sizes: Sizes
) -> dict[str, tuple[str, ...]]:
    """Return the sizes that each place may take beside what is fixed."""
    by_key = {place.key: place for place in places}
    allowed = {p.key: {*sizes.known_for(p.component), ANY} for p in places}
    for one, other in [*edges, *((b, a) for a, b in edges)]:
        if one in fixed:
            here, there = by_key[one].component, by_key[other].component
            size = sizes.of(fixed[one], here)
            allowed[other] = {s for s in allowed[other] if sizes.may_touch(here, size, there, s)}
    return {key: tuple(sorted(some)) for key, some in allowed.items()}


def _cluster(
    group: list[Place],
    edges: list[tuple[str, str]],
    allowed: Mapping[str, tuple[str, ...]],
    sizes: Sizes,
) -> Cluster | None:
    """Return places that touch as one cluster, unless their family has no plain sizes."""
    if sizes.family_of[group[0].component] not in sizes.by_size:
        return None
    number = {place.key: index for index, place in enumerate(group)}
    touching = [(number[a], number[b]) for a, b in edges if a in number]
    return Cluster(
        tuple(place.kind for place in group),
        tuple(place.is_essential for place in group),
        tuple(allowed[place.key] for place in group),
        frozenset((min(pair), max(pair)) for pair in touching),
    )
