"""How many of each component are required, fitted, in hand and short, over all vehicles."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import chain

from django.db.models import Count, Sum

from catalog.models import Component, Fitting, Part, Position, Vehicle, VehicleClass
from catalog.queries.layouts import Layout, class_positions, lineages_from, positions_from
from catalog.queries.remembered import remembered
from catalog.queries.structures import FROM as STRUCTURE
from catalog.queries.structures import structure
from catalog.reckoning.assignment import enough_for

FOLLOWS_FROM = (*STRUCTURE, Vehicle, Part, Fitting)
WHOLE = (Part.Usability.READY, Part.Usability.UNASSESSED)


@dataclass(frozen=True, slots=True)
class ComponentBalance:
    """One component over all vehicles; ``short`` is what no whole piece in hand could fill."""

    component: Component
    required: int
    fitted: int
    coming: int
    free: int
    repair: int
    patterns: int

    @property
    def short(self) -> int:
        return max(0, self.required - self.fitted - self.coming - self.free)


@dataclass(frozen=True, slots=True)
class ClassSupply:
    """For how many vehicles of a class the pieces in hand are enough, whole and in parts.

    Every class is looked at by itself, so a piece of no stated class counts for each of them.
    """

    vehicle_class: VehicleClass
    vehicles: int
    complete: int
    in_parts: Fraction
    limiting: tuple[Component, ...]


@dataclass(frozen=True, slots=True)
class Heap:
    """Free pieces of one component and class that are alike in usability and wholeness."""

    component: int
    vehicle_class: int | None
    usability: str
    share: Decimal
    count: int

    @property
    def is_usable(self) -> bool:
        return self.usability in WHOLE and self.share == 1

    @property
    def is_piece(self) -> bool:
        """Say whether it is at least a piece of the thing: a wooden pattern is none."""
        return self.usability != Part.Usability.PATTERN or self.share < 1


@dataclass(frozen=True, slots=True)
class Stock:
    """All that is counted: positions, kinds of components, free heaps and what is in place.

    ``heaps`` are by component, ``designs`` have the positions of each class without what single
    vehicles have of their own.
    ``required`` counts positions by class of the vehicle and component, ``placed`` active
    fittings by class of the vehicle, component of the position, and state.
    """

    vehicles: list[Vehicle]
    layout: Layout
    designs: Mapping[int, tuple[Position, ...]]
    kinds: Mapping[int, frozenset[int]]
    heaps: Mapping[int, tuple[Heap, ...]]
    required: Counter[tuple[int, int]]
    placed: Counter[tuple[int, int, str]]

    def heaps_for(self, component: int, classes: Iterable[int]) -> list[Heap]:
        suiting = {None, *classes}
        return [
            heap
            for kind in self.kinds[component]
            for heap in self.heaps.get(kind, ())
            if heap.vehicle_class in suiting
        ]

    def in_place(self, component: int, states: Iterable[str], vehicle_class: int = 0) -> int:
        return sum(
            count
            for (of_class, key, state), count in self.placed.items()
            if key == component and state in states and vehicle_class in (0, of_class)
        )


@dataclass(frozen=True, slots=True)
class Balances:
    components: tuple[ComponentBalance, ...]
    classes: tuple[ClassSupply, ...]

    @property
    def finished(self) -> list[ComponentBalance]:
        return [one for one in self.components if one.fitted >= one.required]

    @property
    def unfinished(self) -> list[ComponentBalance]:
        """Return what some vehicle lacks, the shortest first."""
        open_ones = (one for one in self.components if one.fitted < one.required)
        return sorted(open_ones, key=lambda one: -one.short)


def balances_of(vehicles: Iterable[Vehicle]) -> Balances:
    """Return the balance of each component and class, in so many queries however many.

    They are counted anew only when something that they follow from has changed.
    """
    vehicles = list(vehicles)
    keys = ",".join(str(vehicle.pk) for vehicle in vehicles)
    return remembered(f"balances of {keys}", FOLLOWS_FROM, lambda: _balances(vehicles))


def _balances(vehicles: list[Vehicle]) -> Balances:
    built = structure()
    layout = Layout(
        positions_from(built.recorded, vehicles), {}, lineages_from(built.recorded, vehicles)
    )
    designs = {
        key: class_positions(lineage, built.recorded) for key, lineage in layout.lineages.items()
    }
    everywhere = chain(*designs.values(), *layout.positions.values())
    components = {position.component_id: position.component for position in everywhere}
    heaps = _heaps({kind for component in components for kind in built.kinds[component]})
    required = Counter(
        (vehicle.vehicle_class_id, position.component_id)
        for vehicle in vehicles
        for position in layout.positions[vehicle.pk]
    )
    stock = Stock(vehicles, layout, designs, built.kinds, heaps, required, _placed(vehicles))
    classes = {vehicle.vehicle_class_id: vehicle.vehicle_class for vehicle in vehicles}
    supplies = (
        _class_supply(one, stock, components)
        for one in sorted(classes.values(), key=lambda one: one.designation)
    )
    required_somewhere = {key for _, key in required}
    in_order = sorted(components.values(), key=lambda component: component.name)
    return Balances(
        tuple(_balance(one, stock) for one in in_order if one.pk in required_somewhere),
        tuple(supply for supply in supplies if supply is not None),
    )


def _balance(component: Component, stock: Stock) -> ComponentBalance:
    by_class = {of: n for (of, key), n in stock.required.items() if key == component.pk}
    classes = {key for of_class in by_class for key in stock.layout.lineages[of_class]}
    heaps = stock.heaps_for(component.pk, classes)
    broken = [heap for heap in heaps if not heap.is_usable]
    patterns = sum(h.count for h in broken if h.usability == Part.Usability.PATTERN)
    return ComponentBalance(
        component=component,
        required=sum(by_class.values()),
        fitted=stock.in_place(component.pk, [Fitting.State.FITTED]),
        coming=stock.in_place(component.pk, [Fitting.State.TRIAL, Fitting.State.RESERVED]),
        free=sum(heap.count for heap in heaps if heap.is_usable),
        repair=sum(heap.count for heap in broken) - patterns,
        patterns=patterns,
    )


def _class_supply(
    vehicle_class: VehicleClass, stock: Stock, components: Mapping[int, Component]
) -> ClassSupply | None:
    own = [v for v in stock.vehicles if v.vehicle_class_id == vehicle_class.pk]
    required = _required(stock, vehicle_class.pk, own)
    if not required:
        return None
    lineage = stock.layout.lineages[vehicle_class.pk]
    whole, shares = {}, {}
    for key in required:
        heaps = stock.heaps_for(int(key), lineage)
        placed = stock.in_place(int(key), Fitting.ACTIVE, vehicle_class.pk)
        whole[key] = placed + sum(heap.count for heap in heaps if heap.is_usable)
        pieces = (heap.count * Fraction(heap.share) for heap in heaps if heap.is_piece)
        shares[key] = placed + sum(pieces, Fraction(0))
    enough = enough_for(required, shares)
    return ClassSupply(
        vehicle_class,
        len(own),
        enough_for(required, whole).complete,
        enough.in_parts,
        tuple(components[int(key)] for key in enough.limiting),
    )


def _required(stock: Stock, of_class: int, vehicles: list[Vehicle]) -> dict[str, int]:
    """Return what one vehicle requires as its class was designed.

    What single vehicles have beside that is their own affair. A class whose positions stand
    only on its vehicles requires what the one that asks most does.
    """
    required = _essential(stock.designs[of_class])
    if not required:
        for vehicle in vehicles:
            required |= _essential(stock.layout.positions[vehicle.pk])
    return dict(required)


def _essential(positions: Iterable[Position]) -> Counter[str]:
    return Counter(str(one.component_id) for one in positions if one.is_essential)


def _heaps(components: Iterable[int]) -> dict[int, tuple[Heap, ...]]:
    alike = ("component", "vehicle_class", "usability", "surviving_share")
    kept = (
        Part.objects.kept()
        .filter(component__in=list(components))
        .exclude(usability=Part.Usability.UNUSABLE)
    )
    used = Counter(
        {
            tuple(row[:4]): row[4]
            for row in Fitting.objects.active()
            .filter(part__in=kept)
            .values_list(*(f"part__{name}" for name in alike))
            .annotate(count=Count("pk"))
            .order_by()
        }
    )
    rows = kept.order_by().values_list(*alike).annotate(total=Sum("quantity"))
    heaps: dict[int, list[Heap]] = {}
    for component, of_class, usability, share, total in rows:
        free = total - used[component, of_class, usability, share]
        heap = Heap(component, of_class, usability, share, free)
        heaps.setdefault(component, []).append(heap)
    return {component: tuple(own) for component, own in heaps.items()}


def _placed(vehicles: list[Vehicle]) -> Counter[tuple[int, int, str]]:
    rows = (
        Fitting.objects.active()
        .filter(vehicle__in=vehicles)
        .order_by()
        .values_list("vehicle__vehicle_class", "position__component", "state")
        .annotate(count=Count("pk"))
    )
    return Counter({(row[0], row[1], row[2]): row[3] for row in rows})
