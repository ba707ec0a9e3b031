"""Vehicles for lists and pages: how complete each is, what it looks like, and how it differs."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from django.contrib.auth.models import AnonymousUser

from catalog.models import (
    Deviation,
    Drawing,
    Fitting,
    Photo,
    Position,
    PositionSpot,
    Vehicle,
    VehicleClass,
)
from catalog.queries.layouts import lineage_of
from catalog.queries.photos import main_photos, seen_by
from catalog.queries.positions import positions_of_vehicles
from catalog.queries.remembered import remembered

# What the drawings of vehicles come from: they are remembered until one of these changes.
DRAWN_FROM = (VehicleClass, Drawing, PositionSpot, Position, Photo)


@dataclass(frozen=True, slots=True)
class Completeness:
    """How many of the positions that the vehicle is not complete without are filled."""

    filled: int
    essential: int


@dataclass(frozen=True, slots=True)
class VehicleRow:
    """A vehicle as a list shows it."""

    vehicle: Vehicle
    completeness: Completeness
    photo: Photo | None


@dataclass(frozen=True, slots=True)
class PlaceRow:
    """A position of a vehicle and the state in which it is."""

    position: Position
    state: str


@dataclass(frozen=True, slots=True)
class Assembly:
    """The positions of one assembly, in order, and how many essential ones are filled."""

    name: str
    rows: tuple[PlaceRow, ...]
    completeness: Completeness


@dataclass(frozen=True, slots=True)
class Plate:
    """A drawing of a class as ``position_drawing`` shows it."""

    title: str
    url: str
    width: int
    height: int
    alt: str
    spots: tuple["PlateSpot", ...]


@dataclass(frozen=True, slots=True)
class PlateSpot:
    """A position on a drawing, with the state in which it is."""

    x: float
    y: float
    code: str
    label: str
    state: str
    url: str

    @property
    def sign(self) -> str:
        """Return what stands at the spot on paper, where no hatch tells the state."""
        return self.code


def vehicle_rows(
    vehicles: Iterable[Vehicle], *, published_photos: bool = False
) -> list[VehicleRow]:
    """Return what a list shows of the vehicles, in as many queries for three as for one."""
    vehicles = list(vehicles)
    complete = completeness_of(vehicles)
    photos = _published_photos(complete) if published_photos else main_photos("vehicle", complete)
    return [
        VehicleRow(vehicle, complete[vehicle.pk], photos.get(vehicle.pk)) for vehicle in vehicles
    ]


def completeness_of(vehicles: Iterable[Vehicle]) -> dict[int, Completeness]:
    """Return how complete each vehicle is, by its key."""
    positions = positions_of_vehicles(vehicles)
    rows = Fitting.objects.filter(vehicle__in=list(positions), state=Fitting.State.FITTED)
    fitted: dict[int, set[int]] = {}
    for vehicle, position in rows.values_list("vehicle_id", "position_id"):
        fitted.setdefault(vehicle, set()).add(position)
    return {key: _counted(own, fitted.get(key, set())) for key, own in positions.items()}


def assemblies(positions: Iterable[Position], states: Mapping[int, str]) -> list[Assembly]:
    """Group positions by assembly, in the order in which the assemblies first appear."""
    groups: dict[str, list[Position]] = {}
    for position in positions:
        groups.setdefault(position.assembly, []).append(position)
    filled = {key for key, state in states.items() if state == Fitting.State.FITTED}
    return [
        Assembly(
            name or "other positions",
            tuple(PlaceRow(position, states.get(position.pk, "nothing")) for position in own),
            _counted(own, filled),
        )
        for name, own in groups.items()
    ]


def plates_of(
    vehicle: Vehicle,
    positions: Iterable[Position],
    states: Mapping[int, str],
    *,
    published_only: bool = False,
    link: Callable[[Position], str] = lambda position: f"#position-{position.pk}",
) -> list[Plate]:
    """Return the drawings of the vehicle's class and of those it is based on, with its states.

    ``link`` says where a spot leads.
    """
    own = {_place(position): position for position in positions}
    parents, by_class = remembered("drawings", DRAWN_FROM, _read_drawings)
    lineage = lineage_of(vehicle.vehicle_class_id, parents)
    found = [drawing for key in lineage for drawing in by_class.get(key, [])]
    if published_only:
        seen = set(seen_by(AnonymousUser()).filter(drawings__in=found).values_list("pk", flat=True))
        found = [drawing for drawing in found if drawing.picture_id in seen]
    return [_plate(drawing, own, states, link) for drawing in found]


def _read_drawings() -> tuple[dict[int, int | None], dict[int, list[Drawing]]]:
    """Return the base of every class, and the drawings of every class with their spots."""
    by_class: dict[int, list[Drawing]] = {}
    rows = Drawing.objects.filter(picture__withdrawn_at__isnull=True).select_related("picture")
    for drawing in rows.prefetch_related("spots__position"):
        by_class.setdefault(drawing.vehicle_class_id, []).append(drawing)
    return dict(VehicleClass.objects.values_list("pk", "based_on")), by_class


def differences_of(vehicle: Vehicle) -> list[Deviation]:
    """Return how the vehicle differs from its class, with the sources behind each difference."""
    rows = vehicle.deviations.select_related("position__component")
    return list(rows.prefetch_related("citations__source"))


def _published_photos(vehicle_keys: Iterable[int]) -> dict[int, Photo]:
    found = Photo.objects.in_order().filter(vehicle__in=list(vehicle_keys), is_published=True)
    photos: dict[int, Photo] = {}
    for photo in found:
        if photo.vehicle_id is not None:
            photos.setdefault(photo.vehicle_id, photo)
    return photos


def _place(position: Position) -> tuple[str, int]:
    """Return what a position keeps when a class takes it over from the class it is based on."""
    return (position.code, position.component_id)


def _counted(positions: Iterable[Position], filled: set[int]) -> Completeness:
    essential = [position.pk for position in positions if position.is_essential]
    return Completeness(len(filled.intersection(essential)), len(essential))


def _plate(
    drawing: Drawing,
    own: Mapping[tuple[str, int], Position],
    states: Mapping[int, str],
    link: Callable[[Position], str],
) -> Plate:
    picture = drawing.picture
    spots = [(spot, own.get(_place(spot.position))) for spot in drawing.spots.all()]
    return Plate(
        title=drawing.title,
        url=picture.url_2048,
        width=picture.width,
        height=picture.height,
        alt=drawing.title,
        spots=tuple(
            PlateSpot(
                x=spot.x,
                y=spot.y,
                code=position.code,
                label=str(position.component),
                state=states.get(position.pk, "nothing"),
                url=link(position),
            )
            for spot, position in spots
            if position
        ),
    )
