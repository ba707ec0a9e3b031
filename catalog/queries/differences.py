"""Two vehicles of a class side by side: what is different, and since when."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalog.models import Deviation, Part, Photo, Position, Specification, Vehicle
from catalog.queries.photos import main_photos
from catalog.queries.positions import limits_of, limits_of_vehicles, positions_of_vehicles
from catalog.queries.vehicles import differences_of

Place = tuple[str, int]


@dataclass(frozen=True, slots=True)
class Side:
    """What one of the two vehicles has at a position."""

    has_position: bool
    differences: tuple[Deviation, ...]
    limits: tuple[str, ...]
    part: Part | None
    photo: Photo | None

    @property
    def stands_for(self) -> tuple[bool, set[tuple[str, str]], tuple[str, ...]]:
        """Return what must be equal on both for the position to count as alike."""
        told = {(row.kind, row.reason) for row in self.differences}
        return (self.has_position, told, self.limits)


@dataclass(frozen=True, slots=True)
class Compared:
    """One position of two vehicles."""

    code: str
    component: str
    assembly: str
    left: Side
    right: Side

    @property
    def is_different(self) -> bool:
        return self.left.stands_for != self.right.stands_for


@dataclass(frozen=True, slots=True)
class Comparison:
    """All positions that either vehicle has, and what differs at none in particular."""

    different: tuple[Compared, ...]
    alike: tuple[Compared, ...]
    left_noted: tuple[Deviation, ...]
    right_noted: tuple[Deviation, ...]

    @property
    def total(self) -> int:
        return len(self.different) + len(self.alike)


@dataclass(frozen=True, slots=True)
class _Facts:
    """What is known of one vehicle, by place."""

    positions: Mapping[Place, Position]
    differences: Mapping[Place, tuple[Deviation, ...]]
    limits: Mapping[Place, tuple[str, ...]]
    parts: Mapping[Place, Part]
    photos: Mapping[int, Photo]
    noted: tuple[Deviation, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """A difference as it was recorded, with the limits that hold where it speaks of others."""

    difference: Deviation
    limits: tuple["HeldLimits", ...] = ()

    @property
    def speaks_of_limits(self) -> bool:
        return self.difference.kind == Deviation.Kind.RESPECIFIED

    @property
    def lacks_limits(self) -> bool:
        """Tell whether the limits that it speaks of are still to be written down."""
        return self.speaks_of_limits and not any(held.is_own for held in self.limits)


@dataclass(frozen=True, slots=True)
class HeldLimits:
    """Limits that hold at a position of a vehicle: its own, or those of its class."""

    key: int
    words: str
    is_own: bool


def differences_told(vehicle: Vehicle) -> list[Told]:
    """Return how the vehicle differs; limits are looked up only where others are said to hold."""
    rows = differences_of(vehicle)
    speaks = any(row.kind == Deviation.Kind.RESPECIFIED for row in rows)
    held = limits_of(vehicle) if speaks else {}
    return [_told(row, held.get(row.position_id or 0, ())) for row in rows]


def _told(row: Deviation, limits: Iterable[Specification]) -> Told:
    if row.kind != Deviation.Kind.RESPECIFIED:
        return Told(row)
    held = [HeldLimits(one.pk, _word(one), one.vehicle_id is not None) for one in limits]
    return Told(row, tuple(held))


def compare(left: Vehicle, right: Vehicle) -> Comparison:
    """Put two vehicles side by side, position by position, in the order of the first."""
    one, other = _facts_of(left, right)
    named = {**_named(other.differences), **other.positions}
    places = {**_named(one.differences), **one.positions, **named}
    rows = [
        Compared(
            code=position.code,
            component=str(position.component),
            assembly=position.assembly,
            left=_side(one, place),
            right=_side(other, place),
        )
        for place, position in sorted(places.items(), key=lambda pair: _in_order(pair[1]))
    ]
    return Comparison(
        different=tuple(row for row in rows if row.is_different),
        alike=tuple(row for row in rows if not row.is_different),
        left_noted=one.noted,
        right_noted=other.noted,
    )


def _facts_of(*vehicles: Vehicle) -> list[_Facts]:
    positions, limits = positions_of_vehicles(vehicles), limits_of_vehicles(vehicles)
    parts = {vehicle.pk: _parts_at(vehicle) for vehicle in vehicles}
    photos = main_photos("part", [part.pk for own in parts.values() for part in own.values()])
    return [
        _facts(vehicle, positions[vehicle.pk], limits[vehicle.pk], parts[vehicle.pk], photos)
        for vehicle in vehicles
    ]


def _facts(
    vehicle: Vehicle,
    positions: Iterable[Position],
    limits: Mapping[int, tuple[Specification, ...]],
    parts: Mapping[Place, Part],
    photos: Mapping[int, Photo],
) -> _Facts:
    own = {_place(position): position for position in positions}
    differences: dict[Place, tuple[Deviation, ...]] = {}
    noted = []
    for row in differences_of(vehicle):
        if row.position is None:
            noted.append(row)
        else:
            place = _place(row.position)
            differences[place] = (*differences.get(place, ()), row)
    told = {place: _in_words(limits[position.pk]) for place, position in own.items()}
    return _Facts(own, differences, told, parts, photos, tuple(noted))


def _parts_at(vehicle: Vehicle) -> dict[Place, Part]:
    fittings = vehicle.fittings.active().select_related("position", "part")
    return {_place(fitting.position): fitting.part for fitting in fittings}


def _side(facts: _Facts, place: Place) -> Side:
    part = facts.parts.get(place)
    return Side(
        has_position=place in facts.positions,
        differences=facts.differences.get(place, ()),
        limits=facts.limits.get(place, ()),
        part=part,
        photo=facts.photos.get(part.pk) if part else None,
    )


def _named(differences: Mapping[Place, tuple[Deviation, ...]]) -> dict[Place, Position]:
    """Return positions that a difference speaks of, so that a dropped one has its row too."""
    return {
        place: row.position for place, rows in differences.items() for row in rows if row.position
    }


def _place(position: Position) -> Place:
    return (position.code, position.component_id)


def _in_order(position: Position) -> tuple[int, str, int]:
    return (position.sequence, position.code, position.pk)


def _in_words(limits: Iterable[Specification]) -> tuple[str, ...]:
    return tuple(_word(row) for row in limits)


def _word(row: Specification) -> str:
    return f"{row.characteristic} {_limits(row)} mm"


def _limits(row: Specification) -> str:
    lower, upper = row.ends
    if lower is None or upper is None:
        word, limit = ("at most", upper) if lower is None else ("at least", lower)
        return f"{word} {float(limit or 0):g}"
    return f"{float(lower):g}–{float(upper):g}"
