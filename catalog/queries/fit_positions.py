"""The open positions that a piece could fill, ranked, among however many there are."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from django.db.models import Q
from django.urls import reverse
from django.utils.http import urlencode

from catalog.models import Fitting, Position, Removal, Trial, Vehicle
from catalog.queries.candidates import Candidate, Judge, rank
from catalog.queries.fit_classes import ClassesSorted, ClassOut, sort_classes
from catalog.queries.fit_facts import Readings, mates_of, readings_of, trials_at
from catalog.queries.fit_pieces import Piece
from catalog.queries.fit_places import places_of
from catalog.reckoning.conformance import Fit, Verdict

# So many vehicles are looked at closely; open positions beyond them are counted.
VEHICLES_AT_MOST = 24


@dataclass(frozen=True, slots=True)
class PlaceFit:
    """An open position of a vehicle, and how the piece does there."""

    vehicle: Vehicle
    position: Position
    candidate: Candidate

    @property
    def bench_url(self) -> str:
        part, vehicle, position = self.candidate.part.pk, self.vehicle.pk, self.position.pk
        which = {"part": part, "vehicle": vehicle, "position": position}
        return f"{reverse('fit-bench')}?{urlencode(which)}"


@dataclass(frozen=True, slots=True)
class PlaceGroup:
    """Positions of one vehicle at which the piece does equally well, and how."""

    vehicle: Vehicle
    places: tuple[PlaceFit, ...]
    candidate: Candidate

    @property
    def codes(self) -> str:
        return ", ".join(place.position.code for place in self.places)

    @property
    def verdict(self) -> Verdict:
        return self.candidate.verdict


@dataclass(frozen=True, slots=True)
class PositionFits:
    """Where the piece may go, best first; where it cannot, with the reason; and what is left."""

    groups: tuple[PlaceGroup, ...]
    excluded: tuple[PlaceGroup, ...]
    classes_out: tuple[ClassOut, ...]
    classes_out_count: int
    of_other_class: int
    not_shown: int


def positions_for_piece(piece: Piece) -> PositionFits:
    """Return the open positions that take such a piece, in so many queries however many there are.

    First whole classes are told apart by their limits; then the vehicles of the others are
    looked at in the order of their restoration, those first on which the piece was tried, off
    which it came, or for which it is kept.
    """
    classes = sort_classes(piece)
    vehicles, not_shown = _vehicles(piece, classes)
    placed = _placed(piece, vehicles)
    placed.sort(key=lambda one: _order(one))
    groups = _grouped(placed)
    return PositionFits(
        groups=tuple(one for one in groups if one.verdict.fit != Fit.MISFIT),
        excluded=tuple(one for one in groups if one.verdict.fit == Fit.MISFIT),
        classes_out=classes.excluded,
        classes_out_count=classes.excluded_count,
        of_other_class=classes.of_other_class,
        not_shown=not_shown,
    )


def _order(one: PlaceFit) -> tuple[object, ...]:
    found = one.candidate.verdict
    return (found.trial is None, *rank(one.candidate, one.vehicle))


def _grouped(placed: list[PlaceFit]) -> list[PlaceGroup]:
    """Gather places that are alike; whoever judges them returns the same candidate for those."""
    groups: dict[tuple[int, int], list[PlaceFit]] = {}
    for one in placed:
        groups.setdefault((one.vehicle.pk, id(one.candidate)), []).append(one)
    return [PlaceGroup(own[0].vehicle, tuple(own), own[0].candidate) for own in groups.values()]


def _placed(piece: Piece, vehicles: list[Vehicle]) -> list[PlaceFit]:
    components = {*piece.kinds, *mates_of(piece.kinds)}
    places = [
        place
        for own in places_of(vehicles, components=components, with_sources=True).values()
        for place in own
        if place.fitting is None and place.position.component_id in piece.kinds
    ]
    beside = {neighbor.part for place in places for neighbor in place.neighbors}
    of_neighbors = readings_of(beside)
    readings = Readings(
        {**of_neighbors.by_part, **piece.readings.by_part},
        {**of_neighbors.doubts, **piece.readings.doubts},
    )
    judge = Judge(readings, trials_at(vehicles))
    return [
        PlaceFit(place.vehicle, place.position, judge.judge(piece.part, place))
        for place in places
        if place.may_take(piece.part)
    ]


def _vehicles(piece: Piece, classes: ClassesSorted) -> tuple[list[Vehicle], int]:
    """Return the vehicles to look at, and how many open positions the others have."""
    open_by_vehicle = _open_by_vehicle(piece, classes.positions)
    first = _of_interest(piece)
    keys = sorted(open_by_vehicle, key=lambda key: key not in first)
    looked_at = keys[:VEHICLES_AT_MOST]
    rows = Vehicle.objects.select_related("vehicle_class").in_bulk(looked_at)
    left = sum(open_by_vehicle[key] for key in keys[VEHICLES_AT_MOST:])
    return [rows[key] for key in looked_at], left


def _open_by_vehicle(piece: Piece, positions: Mapping[int, int]) -> dict[int, int]:
    """Return how many such positions are open on each vehicle, in the order of restoration."""
    own = Counter(
        Position.objects.filter(component__in=piece.kinds, vehicle__isnull=False).values_list(
            "vehicle", flat=True
        )
    )
    rows = Vehicle.objects.kept().exclude(status=Vehicle.Status.AWAY)
    if piece.part.keep_with_id is not None:
        rows = rows.filter(pk=piece.part.keep_with_id)
    rows = rows.filter(Q(vehicle_class__in=list(positions)) | Q(pk__in=list(own)))
    fittings = Fitting.objects.active().filter(
        position__component__in=piece.kinds, vehicle__vehicle_class__in=list(positions)
    )
    filled = Counter(fittings.order_by().values_list("vehicle", flat=True))
    counted = {
        pk: positions.get(kind, 0) + own[pk] - filled[pk]
        for pk, kind in rows.in_restoration_order().values_list("pk", "vehicle_class")
    }
    return {pk: count for pk, count in counted.items() if count > 0}


def _of_interest(piece: Piece) -> set[int]:
    key = piece.part.pk
    trials = Trial.objects.kept().filter(part=key, vehicle__isnull=False)
    tried = trials.values_list("vehicle", flat=True)
    removed = Removal.objects.filter(part=key).values_list("vehicle", flat=True)
    return {*(vehicle for vehicle in tried if vehicle), *removed}
