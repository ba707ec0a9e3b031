"""Turn the counts of a solved model into pieces at places."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from catalog.reckoning.planning.frames import Slot
from catalog.reckoning.planning.labelings import Cluster, Labeling, Role
from catalog.reckoning.planning.lots import Hub
from catalog.reckoning.planning.models import Bin, Group, Model

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
                    plan |= {
                        place: piece
                        for piece, place in zip(self._inflow(bin_), places, strict=False)
                    }
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


def _slots(group: Group) -> dict[Slot, Iterator[str]]:
    return {
        slot: iter([place for frame in group.frames for place in frame.slots[slot]])
        for slot in group.frame.slots
    }


def _roles(cluster: Cluster, labeling: Labeling) -> Iterable[Role]:
    return zip(cluster.kinds, cluster.are_essential, labeling, strict=True)
