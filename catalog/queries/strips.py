"""Each vehicle as a strip: how far it is, on a small drawing and in counts."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalog.models import Drawing, Fitting, Position, Vehicle
from catalog.queries.positions import layout_of
from catalog.queries.vehicles import Completeness

States = Mapping[int, Mapping[int, str]]
# From done to farthest off, as the legend has them.
_FILLED = {"fitted", "trial", "reserved"}
_MOST_NAMES = 4
_ORDER = ("fitted", "trial", "reserved", "available", "repair", "pattern", "nothing")


@dataclass(frozen=True, slots=True)
class StripSpot:
    """A position on the small drawing, in fractions of its width and height."""

    x: float
    y: float
    state: str


@dataclass(frozen=True, slots=True)
class StripPlate:
    """The small drawing of a vehicle's class."""

    url: str
    width: int
    height: int
    spots: tuple[StripSpot, ...]


@dataclass(frozen=True, slots=True)
class VehicleStrip:
    """A vehicle on the home page; ``counts`` are its essential positions by state."""

    vehicle: Vehicle
    completeness: Completeness
    plate: StripPlate | None
    counts: tuple[tuple[str, int], ...]
    open: tuple[tuple[str, int], ...]

    @property
    def open_words(self) -> str:
        """Name what is at no position yet, such as “2 × strap hinge, drawhead and 3 more”."""
        named = [name if count == 1 else f"{count} × {name}" for name, count in self.open]
        more = sum(count for _, count in self.open[_MOST_NAMES:])
        return ", ".join(named[:_MOST_NAMES]) + (f" and {more} more" if more else "")


def strips_of(vehicles: Iterable[Vehicle], states: States | None = None) -> list[VehicleStrip]:
    """Return a strip for each of the vehicles, in as many queries for three as for one.

    ``states`` are those of the positions by vehicle and position; without them only what is
    fitted, on trial or reserved is told.
    """
    vehicles = list(vehicles)
    layout = layout_of(vehicles)
    known = fitting_states_of(vehicles) if states is None else states
    plates = _drawings({key for lineage in layout.lineages.values() for key in lineage})
    strips = []
    for vehicle in vehicles:
        positions = layout.positions[vehicle.pk]
        own = known.get(vehicle.pk, {})
        lineage = layout.lineages[vehicle.vehicle_class_id]
        drawing = next((plates[key] for key in lineage if key in plates), None)
        strips.append(_strip(vehicle, positions, own, drawing))
    return strips


def fitting_states_of(vehicles: Iterable[Vehicle]) -> dict[int, dict[int, str]]:
    """Return the state of each position that a part is at, by vehicle and position."""
    found: dict[int, dict[int, str]] = {}
    rows = Fitting.objects.active().filter(vehicle__in=vehicles)
    for vehicle, position, state in rows.values_list("vehicle", "position", "state"):
        found.setdefault(vehicle, {})[position] = state
    return found


def _drawings(classes: Iterable[int]) -> dict[int, Drawing]:
    """Return the first drawing of each class, with its spots."""
    rows = Drawing.objects.filter(vehicle_class__in=classes, picture__withdrawn_at__isnull=True)
    found: dict[int, Drawing] = {}
    for drawing in rows.select_related("picture").prefetch_related("spots__position"):
        found.setdefault(drawing.vehicle_class_id, drawing)
    return found


def _strip(
    vehicle: Vehicle,
    positions: Iterable[Position],
    states: Mapping[int, str],
    drawing: Drawing | None,
) -> VehicleStrip:
    essential = [position for position in positions if position.is_essential]
    counts = Counter(states.get(position.pk, "nothing") for position in essential)
    open_names = Counter(
        str(position.component) for position in essential if states.get(position.pk) not in _FILLED
    )
    return VehicleStrip(
        vehicle,
        Completeness(counts["fitted"], len(essential)),
        _plate(drawing, positions, states) if drawing else None,
        tuple((state, counts[state]) for state in _ORDER if counts[state]),
        tuple(open_names.items()),
    )


def _plate(
    drawing: Drawing, positions: Iterable[Position], states: Mapping[int, str]
) -> StripPlate:
    own = {(position.code, position.component_id): position for position in positions}
    placed = (
        (spot, own.get((spot.position.code, spot.position.component_id)))
        for spot in drawing.spots.all()
    )
    picture = drawing.picture
    return StripPlate(
        url=picture.url_320,
        width=320,
        height=round(320 * picture.height / picture.width),
        spots=tuple(
            StripSpot(spot.x, spot.y, states.get(position.pk, "nothing"))
            for spot, position in placed
            if position
        ),
    )
