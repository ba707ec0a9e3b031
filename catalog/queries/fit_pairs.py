"""Two pieces on the fit bench, or a piece and a position, held against each other."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Q

from catalog.models import Component, Part, Photo, Position, Trial, Vehicle
from catalog.queries.candidates import Judge, Place
from catalog.queries.fit_facts import Readings, mates_of, readings_of, trials_at
from catalog.queries.fit_pieces import Piece, piece_of
from catalog.queries.fit_places import places_of
from catalog.queries.fit_rules import joints_of, pair_fit
from catalog.queries.measurements import Measured, measured_together
from catalog.reckoning.conformance import Fit, Verdict

PHOTOS = 4


@dataclass(frozen=True, slots=True)
class Side:
    """One of the two: what it is, its photos and its readings."""

    title: str
    name: str
    url: str
    photos: tuple[Photo, ...]
    readings: tuple[Measured, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class OnBench:
    """Both sides, the verdict with its reason, and the trials that took place, newest first.

    Without a verdict, ``reason`` says what it would take to reach one.
    """

    left: Side
    right: Side
    reason: str
    trials: tuple[Trial, ...]
    verdict: Verdict | None = None
    flags: tuple[str, ...] = ()

    @property
    def is_outside(self) -> bool:
        return self.verdict is not None and self.verdict.fit == Fit.MISFIT


def two_parts(part: Part, other: Part, *, taken_as: Component | None = None) -> OnBench:
    """Hold a part against another by the rules that join what they are."""
    sides = (_side(part), _side(other))
    trials = tuple(
        Trial.objects.kept()
        .filter(Q(part=part, other_part=other) | Q(part=other, other_part=part))
        .select_related("tried_by")
        .prefetch_related("photos")
    )
    left, right = piece_of(part, taken_as=taken_as), piece_of(other)
    if left is None or right is None:
        unknown = part if left is None else other
        return OnBench(*sides, f"Nobody has said yet what {unknown} is.", trials)
    joints = [
        one
        for one in joints_of(left.kinds, with_sources=True)
        if one.other_component in right.kinds
    ]
    if not joints and not trials:
        words = f"No rule says yet how a {left.component} and a {right.component} go together."
        return OnBench(*sides, words, trials)
    newest = trials[0] if trials else None
    found = pair_fit(left.part, right.part, joints, (left.measured, right.measured), newest)
    doubts = [*left.readings.doubts.values(), *right.readings.doubts.values()]
    flags = (*found.flags, *(words for told in doubts for words in told))
    return OnBench(*sides, found.reason, trials, found.verdict, flags)


def part_at(
    part: Part, vehicle: Vehicle, position: Position, *, taken_as: Component | None = None
) -> OnBench | None:
    """Hold a part against a position of a vehicle; nothing where the vehicle has no such one."""
    components = {position.component_id, *mates_of([position.component_id])}
    places = places_of([vehicle], components=components, with_sources=True)[vehicle.pk]
    place = next((one for one in places if one.position.pk == position.pk), None)
    if place is None:
        return None
    sides = (_side(part), _side_of_place(place))
    trials = tuple(
        Trial.objects.kept()
        .filter(part=part, vehicle=vehicle, position=position)
        .select_related("tried_by")
        .prefetch_related("photos")
    )
    piece = piece_of(part, taken_as=taken_as)
    if piece is None or not place.kinds & {piece.component.pk}:
        return OnBench(*sides, _other_piece(part, piece, place), trials)
    beside = readings_of(neighbor.part for neighbor in place.neighbors)
    readings = Readings(
        {**beside.by_part, **piece.readings.by_part}, {**beside.doubts, **piece.readings.doubts}
    )
    found = Judge(readings, trials_at([vehicle])).judge(piece.part, place)
    return OnBench(*sides, found.reason, trials, found.verdict, found.flags)


def _other_piece(part: Part, piece: Piece | None, place: Place) -> str:
    takes = f"{place.position.code} takes a {place.position.component}"
    if piece is None:
        return f"Nobody has said yet what {part} is, and {takes}."
    return f"{part} is identified as {piece.component}, and {takes}."


def _side(part: Part) -> Side:
    readings = part.measurements.kept().select_related("characteristic")
    return Side(
        part.label,
        str(part.component or part.description or "not identified yet"),
        part.get_absolute_url(),
        tuple(Photo.objects.in_order().filter(part=part)[:PHOTOS]),
        measured_together(readings),
    )


def _side_of_place(place: Place) -> Side:
    vehicle, position = place.vehicle, place.position
    return Side(
        f"{position.code} of {vehicle}",
        str(position.component),
        vehicle.get_absolute_url(),
        tuple(Photo.objects.in_order().filter(vehicle=vehicle)[:PHOTOS]),
        notes=tuple(_notes(place)),
    )


def _notes(place: Place) -> Iterable[str]:
    if place.fitting is not None:
        yield f"{place.fitting.part} is {place.fitting.get_state_display()} there."
    if not place.limits:
        yield "No limits are recorded for it."
    for neighbor in dict.fromkeys(one.label for one in place.neighbors):
        yield f"It must go with {neighbor}, which is at the same corner."
