"""Build the integer program of a plan.

For every group of vehicles that lack the same, ``y`` counts those made complete. For every kind
of cluster, ``q`` counts by labeling the copies that complete vehicles fill, and ``n`` the labelings
that all other copies are given. All else is a flow: pieces go from their lot to a hub (a
specification in a size) and from there to the bins of the groups (a slot or cluster, in a
size). Pieces held for a vehicle, or preferring the one they came off, also flow past the hubs:

    lot:              sum of flows out                            <= pieces in the lot
    hub:              sum of flows in                              = sum of flows out
    slot:             places x y <= sum of flows in               <= places x vehicles
    cluster:          sum of q = copies x y,  sum of q + sum of n <= copies x vehicles
    cluster, by size: places of q <= sum of flows in              <= places of q and n

Only y, q, and n must be whole. Once they are, the rest is a network with whole capacities.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from math import inf

from catalog.reckoning.planning.facts import Shop
from catalog.reckoning.planning.frames import Frame, Slot
from catalog.reckoning.planning.labelings import (
    Cluster,
    Labeling,
    Role,
    capacities,
    essential_only,
    labelings,
)
from catalog.reckoning.planning.lots import Hub, Lot
from catalog.reckoning.planning.programs import Program
from catalog.reckoning.planning.sizes import Sizes


@dataclass(frozen=True, slots=True)
class Bin:
    """Hold the columns by which pieces flow into one role of a slot or cluster.

    >>> Bin(("box", True, ""), 4, {}).columns
    (4,)
    """

    role: Role
    from_hub: int
    from_lots: Mapping[int, int]

    @property
    def columns(self) -> tuple[int, ...]:
        """Return all columns that flow in."""
        return (self.from_hub, *self.from_lots.values())


@dataclass(slots=True)
class Group:
    """Hold vehicles that lack the same, and the columns that describe their share."""

    frames: list[Frame]
    rank: int
    weight: int
    complete: int = -1
    bins: dict[Slot | Cluster, dict[Role, Bin]] = field(default_factory=dict)
    filled: dict[Cluster, dict[Labeling, int]] = field(default_factory=dict)
    given: dict[Cluster, dict[Labeling, int]] = field(default_factory=dict)

    @property
    def frame(self) -> Frame:
        """Return the first frame, which speaks for all."""
        return self.frames[0]


class Model:
    """Hold the program of a shop with the meaning of its columns."""

    def __init__(self, shop: Shop, sizes: Sizes, frames: Iterable[Frame], lots: Iterable[Lot]):
        self.sizes, self.lots = sizes, tuple(lots)
        self.program = Program()
        self.groups = _groups(shop, frames, self.lots)
        self.flows: dict[tuple[int, Hub], int] = {}
        self.lot_rows: list[int] = []
        self.supplied = {hub for lot in self.lots for hub in lot.hubs}
        self._lots_for: dict[str, list[int]] = defaultdict(list)
        for number, lot in enumerate(self.lots):
            self._lots_for[lot.held_for or lot.came_off or ""].append(number)

    def build(self, *, allows_partial: bool) -> "Model":
        """Add all columns and rows, for complete vehicles alone unless partial ones count."""
        for group in self.groups:
            group.complete = self.program.column(len(group.frames), is_whole=True)
            for slot, places in group.frame.slots.items():
                self._add_slot(group, slot, len(places), allows_partial=allows_partial)
            for cluster, copies in group.frame.clusters.items():
                self._add_cluster(group, cluster, len(copies), allows_partial=allows_partial)
            self._keep_mating(group)
        self._add_lots()
        return self

    def _add_slot(self, group: Group, slot: Slot, places: int, *, allows_partial: bool) -> None:
        sizes = [size for size in slot.sizes if (slot.kind, size) in self.supplied]
        bins = {
            role: self._bin(group, role, is_whole=bool(slot.alone))
            for role in ((slot.kind, slot.is_essential, size) for size in sizes)
        }
        group.bins[slot] = bins
        flows = {column: 1.0 for bin_ in bins.values() for column in bin_.columns}
        most = places * len(group.frames) if allows_partial else None
        if slot.is_essential:
            needed = {**flows, group.complete: -float(places)}
            self.program.row(needed, lower=0, **({} if allows_partial else {"upper": 0}))
        if most is not None:
            self.program.row(flows, upper=most)

    def _add_cluster(
        self, group: Group, cluster: Cluster, copies: int, *, allows_partial: bool
    ) -> None:
        offered = self._labelings(cluster)
        complete = [each for each in offered if self._is_complete(cluster, each)]
        filled = {each: self.program.column(is_whole=True) for each in complete}
        given = {each: self.program.column(is_whole=True) for each in offered if allows_partial}
        group.filled[cluster], group.given[cluster] = filled, given
        whole = dict.fromkeys(filled.values(), 1.0)
        self.program.row({**whole, group.complete: -float(copies)}, lower=0, upper=0)
        if allows_partial:
            all_copies = {**whole, **dict.fromkeys(given.values(), 1.0)}
            self.program.row(all_copies, upper=copies * len(group.frames))
        self._add_cluster_bins(group, cluster, allows_partial=allows_partial)

    def _add_cluster_bins(self, group: Group, cluster: Cluster, *, allows_partial: bool) -> None:
        filled, given = group.filled[cluster], group.given[cluster]
        needs = _by_role(cluster, filled)
        offers = _by_role(cluster, given)
        group.bins[cluster] = {}
        for role in sorted({*needs, *offers}):
            if (role[0], role[2]) not in self.supplied:
                continue
            bin_ = group.bins[cluster][role] = self._bin(group, role)
            flows = dict.fromkeys(bin_.columns, 1.0)
            needed = {**flows, **needs.get(role, {})}
            if role[1]:
                self.program.row(needed, lower=0, **({} if allows_partial else {"upper": 0}))
            if allows_partial:
                self.program.row({**needed, **offers.get(role, {})}, upper=0)

    def _labelings(self, cluster: Cluster) -> tuple[Labeling, ...]:
        """Return the labelings of a cluster in the sizes that any lot could supply."""
        allowed = tuple(
            tuple(size for size in sizes if (kind, size) in self.supplied)
            for kind, sizes in zip(cluster.kinds, cluster.allowed, strict=True)
        )
        return labelings(replace(cluster, allowed=allowed))

    def _is_complete(self, cluster: Cluster, labeling: Labeling) -> bool:
        roles = essential_only(capacities(cluster, labeling))
        return all((kind, size) in self.supplied for kind, _, size in roles)

    def _bin(self, group: Group, role: Role, *, is_whole: bool = False) -> Bin:
        hub = (role[0], role[2])
        upper = {"upper": 1} if is_whole else {}
        own_lots = self._lots_for[group.frame.vehicle] if len(group.frames) == 1 else []
        from_lots = {
            lot: self.program.column(is_whole=is_whole, **upper)
            for lot in own_lots
            if hub in self.lots[lot].hubs
        }
        return Bin(role, self.program.column(is_whole=is_whole, **upper), from_lots)

    def _keep_mating(self, group: Group) -> None:
        """Let places of which each stands alone hold only sizes that mate where they touch.

        A row for each set of sizes that clash with some size here joins to it all sizes here
        that clash with the whole set: no two of either side may come together. Such bicliques
        bound more tightly than a row for each pair (common practice, no source).
        """
        slots = {slot.alone: slot for slot in group.frame.slots if slot.alone}
        both_ways = [*group.frame.touching, *((b, a) for a, b in group.frame.touching)]
        for here, there in both_ways:
            clashes = self._clashes(group, slots[here], slots[there])
            for clashing in dict.fromkeys(clashes.values()):
                alike = [role for role, others in clashes.items() if others >= clashing]
                bins = [group.bins[slots[here]][role] for role in alike]
                bins += [group.bins[slots[there]][role] for role in sorted(clashing)]
                columns = [column for bin_ in bins for column in bin_.columns]
                self.program.row(dict.fromkeys(columns, 1.0), upper=1)

    def _clashes(self, group: Group, here: Slot, there: Slot) -> dict[Role, frozenset[Role]]:
        """Return, for the sizes here that clash with any there, those that they clash with."""
        clashes = {
            one: frozenset(
                other
                for other in group.bins[there]
                if not self.sizes.may_touch(here.component, one[2], there.component, other[2])
            )
            for one in group.bins[here]
        }
        return {one: others for one, others in clashes.items() if others}

    def _add_lots(self) -> None:
        """Add the flows from lots to hubs, and balance hubs and lots."""
        leaving: dict[Hub, dict[int, float]] = defaultdict(dict)
        drawing: list[dict[int, float]] = [{} for _ in self.lots]
        for bin_ in self.bins():
            leaving[bin_.role[0], bin_.role[2]][bin_.from_hub] = -1.0
            for own, column in bin_.from_lots.items():
                drawing[own][column] = 1.0
        for number, lot in enumerate(self.lots):
            for hub in lot.hubs if lot.held_for is None else ():
                if hub in leaving:
                    column = self.flows[number, hub] = self.program.column(lot.quantity)
                    leaving[hub][column] = drawing[number][column] = 1.0
            self.lot_rows.append(self.program.row(drawing[number], upper=lot.quantity))
        for terms in leaving.values():
            self.program.row(terms, lower=0, upper=0)

    def limit_lot(self, lot: int, quantity: int) -> None:
        """Let no more than ``quantity`` pieces of a lot be used from now on."""
        self.program.limit_row(self.lot_rows[lot], -inf, quantity)

    def bins(self) -> Iterable[Bin]:
        """Yield the bins of all groups."""
        for group in self.groups:
            for bins in group.bins.values():
                yield from bins.values()


def _groups(shop: Shop, frames: Iterable[Frame], lots: Iterable[Lot]) -> list[Group]:
    """Return vehicles in groups that the lots cannot tell apart."""
    named = {name for lot in lots for name in (lot.held_for, lot.came_off)}
    groups: dict[object, Group] = {}
    for frame in frames:
        rank, weight = shop.ranks.get(frame.vehicle, 0), shop.weights.get(frame.vehicle, 1)
        # Places that mate pair by pair have names of their own, so their vehicles never merge.
        own = frame.vehicle if frame.vehicle in named else ""
        group = groups.setdefault((rank, weight, own, frame.shape), Group([], rank, weight))
        group.frames.append(frame)
    return list(groups.values())


def _by_role(cluster: Cluster, columns: Mapping[Labeling, int]) -> dict[Role, dict[int, float]]:
    """Return, negated, the places of each role that one copy of each labeling offers."""
    offered: dict[Role, dict[int, float]] = defaultdict(dict)
    for labeling, column in columns.items():
        for role, places in capacities(cluster, labeling).items():
            offered[role][column] = -float(places)
    return offered
