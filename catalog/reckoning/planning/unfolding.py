"""Turn the counts of a solved model into pieces at places, and a plan back into counts."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from catalog.reckoning.planning.frames import Frame
from catalog.reckoning.planning.labelings import Cluster, Labeling, Role, capacities
from catalog.reckoning.planning.lots import Hub
from catalog.reckoning.planning.models import Bin, Group, Model
from catalog.reckoning.planning.sizes import ANY

# The piece that goes to each place, by their keys.
Plan = dict[str, str]

Values = NDArray[np.float64]


def unfold(model: Model, values: Values, free: Mapping[str, int]) -> Plan:
    """Deal the pieces of each lot out to places as the columns of a model say.

    The first vehicles of a group become its complete ones, and pieces go out in their order.

    >>> from catalog.reckoning.planning.facts import Shop
    >>> from catalog.reckoning.planning.sizes import read_sizes
    >>> empty = Shop((), (), ())
    >>> unfold(Model(empty, read_sizes(empty), (), ()), np.zeros(0), {})
    {}
    """
    return _Dealer(model, values, free).plan()


class _Dealer:
    """Keep count of what is dealt."""

    def __init__(self, model: Model, values: Values, free: Mapping[str, int]):
        self._model, self._counts = model, np.round(values).astype(int)
        self._lots = [
            iter([piece for piece in lot.pieces for _ in range(free[piece])]) for lot in model.lots
        ]
        self._pools: dict[Hub, list[str]] = defaultdict(list)
        for (lot, hub), column in model.flows.items():
            self._pools[hub] += self._draw(lot, column)
        self._drawn = {hub: iter(pieces) for hub, pieces in self._pools.items()}

    def plan(self) -> Plan:
        plan: Plan = {}
        for group in self._model.groups:
            for slot, places in _slots(group).items():
                for bin_ in group.bins[slot].values():
                    # The piece comes first, so that no place is passed over at the last.
                    plan |= {place: piece for piece, place in zip(self._inflow(bin_), places, strict=False)}
            for cluster in group.frame.clusters:
                places_of = self._places_of(group, cluster)
                for role, bin_ in group.bins[cluster].items():
                    plan |= dict(zip(places_of[role], self._inflow(bin_), strict=False))
        return plan

    def _draw(self, lot: int, column: int) -> Iterator[str]:
        return islice(self._lots[lot], int(self._counts[column]))

    def _inflow(self, bin_: Bin) -> Iterator[str]:
        for lot, column in bin_.from_lots.items():
            yield from self._draw(lot, column)
        hub = (bin_.role[0], bin_.role[2])
        yield from islice(self._drawn.get(hub, iter(())), int(self._counts[bin_.from_hub]))

    def _places_of(self, group: Group, cluster: Cluster) -> dict[Role, list[str]]:
        """Return the places of each role, those of complete vehicles first."""
        done = int(self._counts[group.complete])
        places: dict[Role, list[str]] = defaultdict(list)
        for frames, columns in (
            (group.frames[:done], group.filled[cluster]),
            (group.frames[done:], group.given[cluster]),
        ):
            copies = (copy for frame in frames for copy in frame.clusters[cluster])
            for labeling in self._labelings(columns):
                for role, place in zip(_roles(cluster, labeling), next(copies), strict=True):
                    places[role].append(place)
        return places

    def _labelings(self, columns: Mapping[Labeling, int]) -> Iterator[Labeling]:
        for labeling, column in columns.items():
            for _ in range(self._counts[column]):
                yield labeling


def _slots(group: Group) -> dict:
    return {
        slot: iter([place for frame in group.frames for place in frame.slots[slot]])
        for slot in group.frame.slots
    }


def _roles(cluster: Cluster, labeling: Labeling) -> Iterable[Role]:
    return zip(cluster.kinds, cluster.are_essential, labeling, strict=True)


def fold(
    model: Model, plan: Mapping[str, str], component_of: Mapping[str, str]
) -> dict[int, float]:
    """Return the whole columns of a model that a plan amounts to, as a start for the solver.

    >>> from catalog.reckoning.planning.facts import Shop
    >>> from catalog.reckoning.planning.sizes import read_sizes
    >>> empty = Shop((), (), ())
    >>> fold(Model(empty, read_sizes(empty), (), ()), {}, {})
    {}
    """
    start: dict[int, float] = {}
    for group in model.groups:
        start |= dict.fromkeys(_whole_columns(group), 0.0)
        for frame in group.frames:
            done = is_complete(frame, plan)
            start[group.complete] += done
            for cluster, copies in frame.clusters.items():
                columns = (group.filled if done else group.given)[cluster]
                for copy in copies:
                    held = _held(
                        model, cluster, [plan.get(place) for place in copy], component_of, copy
                    )
                    labeling = next(
                        (each for each in columns if held <= capacities(cluster, each)), None
                    )
                    if labeling is not None:
                        start[columns[labeling]] += 1
    return start


def _whole_columns(group: Group) -> Iterator[int]:
    yield group.complete
    for columns in (*group.filled.values(), *group.given.values()):
        yield from columns.values()


def _held(
    model: Model,
    cluster: Cluster,
    pieces: list[str | None],
    component_of: Mapping[str, str],
    places: tuple[str, ...],
) -> Counter[Role]:
    """Return the sized pieces that a copy of a cluster holds, by role."""
    sizes = [
        ANY if piece is None else model.sizes.of(piece, component_of[place])
        for piece, place in zip(pieces, places, strict=True)
    ]
    held = Counter(_roles(cluster, tuple(sizes)))
    return Counter({role: count for role, count in held.items() if role[2] != ANY})


def is_complete(frame: Frame, plan: Mapping[str, str]) -> bool:
    """Say whether a plan fills every essential place that a vehicle lacks.

    >>> is_complete(Frame("31", {}, {}), {})
    True
    """
    wanted = [
        place for slot, places in frame.slots.items() if slot.is_essential for place in places
    ]
    for cluster, copies in frame.clusters.items():
        for copy in copies:
            pairs = zip(copy, cluster.are_essential, strict=True)
            wanted += [place for place, is_essential in pairs if is_essential]
    return all(place in plan for place in wanted)
