"""Places of vehicles and parts in hand, laid out together so that any two can be compared."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from django.db import connection

from catalog.models import Part, Vehicle
from catalog.queries.candidates import Candidate, Judge, Place, rank
from catalog.queries.fit_facts import readings_of, trials_at
from catalog.queries.fit_places import places_of
from catalog.queries.supply import InHand, Wanted, parts_in_hand

Usability = Part.Usability
# In a large collection, how many are looked at for every open position of a component, and how
# many more than that: the first few of thousands answer as well as all of them.
LOOKED_AT = {
    Usability.READY: (1, 2),
    Usability.UNASSESSED: (1, 1),
    Usability.REPAIR: (1, 0),
    Usability.PATTERN: (0, 1),
}
# A collection with fewer records of parts than this is looked at whole.
LARGE = 5_000
PARTS_AT_MOST = 5_000


Limits = dict[tuple[int, str], int]
Places = Mapping[int, tuple[Place, ...]]


@dataclass(frozen=True, slots=True)
class Bench:
    """The places of each vehicle by its key, and the parts that could go to them."""

    places: Places
    parts: Mapping[int, Sequence[InHand]]
    judge: Judge
    tried: frozenset[tuple[int, int]]
    found: dict[object, list[Candidate]] = field(default_factory=dict)

    def candidates(self, place: Place) -> list[Candidate]:
        """Return the parts for a place, the best first and those that do not fit last."""
        where = (place.vehicle.pk, place.position.pk)
        key = where if where in self.tried else (place.vehicle.pk, None, place.asks)
        if key not in self.found:
            found = (self.judge.judge(part, place) for part in self._parts_for(place))
            self.found[key] = sorted(found, key=lambda each: rank(each, place.vehicle))
        return self.found[key]

    def _parts_for(self, place: Place) -> Iterator[InHand]:
        for kind in place.kinds:
            yield from (part for part in self.parts.get(kind, ()) if place.may_take(part))


def lay_out(
    vehicles: Iterable[Vehicle],
    *,
    at_least: Callable[[int], int] = lambda component: 0,
    with_sources: bool = False,
) -> Bench:
    """Gather what is known of the vehicles' places and of parts for them, in so many queries.

    In a large collection only the first few parts of each component are looked at, though
    ``at_least`` so many; where too few of those fit, all of that component are, which takes a
    few queries more.
    """
    vehicles = list(vehicles)
    places = places_of(vehicles, with_sources=with_sources)
    limits = _limits(places, at_least if _is_large() else lambda component: PARTS_AT_MOST)
    parts = parts_in_hand(_wanted(limits, places))
    bench = _bench(places, parts, vehicles)
    scarce = _cut_short(bench, limits)
    if scarce:
        deeper = {arm: PARTS_AT_MOST for arm in limits if arm[0] in scarce}
        rest = [part for part in parts if part.component_id not in scarce]
        bench = _bench(places, [*rest, *parts_in_hand(_wanted(deeper, places))], vehicles)
    return bench


def _is_large() -> bool:
    # Keys are given once each, so the last one says enough without counting.
    with connection.cursor() as cursor:
        cursor.execute("SELECT MAX(id) FROM catalog_part")
        return (cursor.fetchone()[0] or 0) > LARGE


def _bench(places: Places, parts: list[InHand], vehicles: list[Vehicle]) -> Bench:
    by_component: dict[int, list[InHand]] = {}
    for part in parts:
        by_component.setdefault(part.component_id, []).append(part)
    beside = {n.part for own in places.values() for place in own for n in place.neighbors}
    readings = readings_of([*(part.pk for part in parts), *beside])
    tried = trials_at(vehicles)
    where = frozenset((vehicle, position) for _, vehicle, position in tried)
    return Bench(places, by_component, Judge(readings, tried), where)


def _limits(places: Places, at_least: Callable[[int], int]) -> Limits:
    """Return how many parts to look at: each class wants its own, and they come mixed."""
    most: dict[int, Counter[int]] = {}
    for own in places.values():
        for of_class in {place.vehicle.vehicle_class_id for place in own}:
            wanted = Counter(kind for place in own if not place.fitting for kind in place.kinds)
            most[of_class] = most.get(of_class, Counter()) | wanted
    kinds = {kind for counts in most.values() for kind in counts}
    return {
        (kind, usability): max(
            sum(each * counts[kind] + spare for counts in most.values() if counts[kind]),
            at_least(kind),
        )
        for kind in kinds
        for usability, (each, spare) in LOOKED_AT.items()
    }


def _wanted(limits: Limits, places: Places) -> Wanted:
    everywhere = [place for own in places.values() for place in own]
    classes = {key for place in everywhere for key in place.classes}
    vehicles = {place.vehicle.pk for place in everywhere}
    return Wanted(limits, tuple(sorted(classes)), tuple(sorted(vehicles)))


def _cut_short(bench: Bench, limits: Limits) -> set[int]:
    """Return the components of which some were not looked at, though too few of the rest fit."""
    looked_at = Counter(
        (part.component_id, part.usability) for own in bench.parts.values() for part in own
    )
    full = {arm[0] for arm, count in looked_at.items() if limits[arm] <= count < PARTS_AT_MOST}
    return {
        kind
        for own in bench.places.values()
        for place in own
        if place.fitting is None and place.kinds & full and _is_scarce(bench, place, own)
        for kind in place.kinds & full
    }


def _is_scarce(bench: Bench, place: Place, own: tuple[Place, ...]) -> bool:
    wanted = sum(other.fitting is None and other.asks == place.asks for other in own)
    return sum(candidate.is_usable for candidate in bench.candidates(place)) < wanted
