"""Which open positions a part could fill, and whether it would."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Q

from catalog.models import Fitting, Part, Position, Vehicle
from catalog.queries.candidates import Candidate, Judge, Place, rank
from catalog.queries.fit_facts import readings_of, trials_at
from catalog.queries.fit_places import places_of
from catalog.queries.layouts import class_positions, lineage_of
from catalog.queries.structures import structure
from catalog.queries.supply import InHand

# The first vehicles that lack the piece, in the order of their restoration.
VEHICLES = 8


@dataclass(frozen=True, slots=True)
class PlaceForPart:
    """An open position, and what speaks for the part there and against it."""

    vehicle: Vehicle
    position: Position
    candidate: Candidate


def positions_for(part: Part) -> tuple[PlaceForPart, ...]:
    """Return the open positions that the part could fill, where it goes best first.

    Only the first few vehicles that lack such a piece are looked at. A part that nobody has
    identified, or that is not usable, or all used up, fills none.
    """
    if part.component_id is None or part.is_withdrawn or part.usability == "unusable":
        return ()
    in_hand = _in_hand(part)
    if in_hand.free < 1:
        return ()
    components = _wider(part.component_id)
    vehicles = _vehicles_that_lack(part, components)
    places = _open_places(vehicles, components)
    beside = {neighbor.part for place in places for neighbor in place.neighbors}
    judge = Judge(readings_of([part.pk, *beside]), trials_at(vehicles))
    found = [
        PlaceForPart(place.vehicle, place.position, judge.judge(in_hand, place))
        for place in places
        if place.may_take(in_hand)
    ]
    return tuple(sorted(found, key=lambda one: rank(one.candidate, one.vehicle)[:4]))


def _in_hand(part: Part) -> InHand:
    return InHand(
        pk=part.pk,
        number=part.number,
        tag=part.tag,
        number_sort=part.number_sort,
        component_id=part.component_id or 0,
        vehicle_class_id=part.vehicle_class_id,
        usability=part.usability,
        surviving_share=part.surviving_share,
        quantity=part.quantity,
        keep_with_id=part.keep_with_id,
        identification_status=part.identification_status,
        defect=part.defect,
        location=None,
        used=Fitting.objects.active().filter(part=part).count(),
    )


def _wider(component: int) -> list[int]:
    """Return the component and those it is a kind of."""
    return [key for key, kinds in structure().kinds.items() if component in kinds]


def _vehicles_that_lack(part: Part, components: list[int]) -> list[Vehicle]:
    """Return the first vehicles in restoration order that have such a position open."""
    counts = _positions_by_class(components)
    rows = Vehicle.objects.kept().exclude(status=Vehicle.Status.AWAY)
    if part.keep_with_id is not None:
        rows = rows.filter(pk=part.keep_with_id)
    has_some = Q(vehicle_class__in=list(counts)) | Q(own_positions__component__in=components)
    rows = rows.filter(has_some).distinct().select_related("vehicle_class")
    vehicles = list(rows.in_restoration_order())
    filled = _filled(components)
    lacking = (
        vehicle
        for vehicle in vehicles
        if filled[vehicle.pk] < counts.get(vehicle.vehicle_class_id, 0)
        or vehicle.vehicle_class_id not in counts
    )
    return [vehicle for vehicle, _ in zip(lacking, range(VEHICLES), strict=False)]


def _positions_by_class(components: list[int]) -> Counter[int]:
    """Return how many such positions each class has, with those of the classes it rests on."""
    recorded = structure().recorded
    counts = {
        key: sum(
            position.component_id in components
            for position in class_positions(lineage_of(key, recorded.parents), recorded)
        )
        for key in recorded.parents
    }
    return Counter({key: count for key, count in counts.items() if count})


def _filled(components: list[int]) -> Counter[int]:
    rows = Fitting.objects.active().filter(position__component__in=components)
    return Counter(rows.values_list("vehicle", flat=True))


def _open_places(vehicles: Iterable[Vehicle], components: list[int]) -> list[Place]:
    places = places_of(vehicles, components=components)
    return [place for own in places.values() for place in own if place.fitting is None]
