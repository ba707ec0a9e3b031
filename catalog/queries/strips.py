"""Each vehicle as a strip: how far it is, on a small drawing and in counts."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from catalog.models import Drawing, Vehicle
from catalog.queries.needs import PositionNeed, VehicleNeeds, kept_words, needs_block
from catalog.queries.plans import VehiclePlan
from catalog.queries.positions import layout_of
from catalog.reckoning.plurals import listed

# From done to farthest off, as the legend has them.
_MOST_NAMES = 4
# Alone in the shop the vehicle would lack less: what is said of that has other words.
BY_PLAN = "by the plan for all vehicles"
_ORDER = ("fitted", "trial", "reserved", "available", "repair", "pattern", "nothing")

LEFT_OUT = "away from the group: the plan leaves it out"


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
    """A vehicle on the home page: its essential positions by state, and what blocks it.

    Where there is a ``plan`` over all vehicles, what blocks this one is what the plan leaves
    open: a piece that goes to another vehicle is not promised here as well.
    """

    needs: VehicleNeeds
    plate: StripPlate | None
    counts: tuple[tuple[str, int], ...]
    plan: VehiclePlan | None = None

    @property
    def is_left_out(self) -> bool:
        """Say whether the plan leaves it out, so that nothing in hand is promised to it."""
        return self.needs.vehicle.status == Vehicle.Status.AWAY and not self.needs.is_complete

    @property
    def blocking(self) -> Mapping[str, int]:
        if self.is_left_out:
            return {}
        if self.plan is not None:
            return Counter(one.position.component.name for one in self.plan.lacking)
        return Counter(n.position.component.name for n in self.needs.needs if n.is_blocking)

    @property
    def blocking_words(self) -> str:
        """Name what is not to be had yet, such as “2 × strap hinge, drawhead and 3 more”."""
        named = [
            name if count == 1 else f"{count} × {name}" for name, count in self.blocking.items()
        ]
        more = sum(list(self.blocking.values())[_MOST_NAMES:])
        return ", ".join(named[:_MOST_NAMES]) + (f" and {more} more" if more else "")

    @property
    def outlook(self) -> str:
        """Say what stands between the vehicle and completion, and by which reckoning."""
        if self.is_left_out:
            return LEFT_OUT
        if self.plan is None or self.needs.is_complete:
            return self.needs.outlook
        lacking = len(self.plan.lacking)
        if lacking:
            return f"{needs_block(lacking)}, {BY_PLAN}"
        is_kept = self.plan.is_spoken_for and self.plan.kept
        if is_kept:
            return f"what is {kept_words(self.plan.kept)} completes it"
        return f"what is in hand completes it, {BY_PLAN}"

    @property
    def served_before(self) -> str:
        """Say how much of what blocks it is in hand and planned for other vehicles."""
        spoken_for = [one for one in self.plan.lacking if one.served] if self.plan else []
        if not spoken_for:
            return ""
        vehicles = {vehicle for one in spoken_for for vehicle in one.served}
        names = [str(vehicle) for vehicle in sorted(vehicles, key=_place_in_line)]
        return f"What would fit {_of_them(self, len(spoken_for))} goes to {listed(names)}."


def strips_of(
    vehicles: Iterable[Vehicle],
    needs: Mapping[int, VehicleNeeds],
    plans: Mapping[int, VehiclePlan] = MappingProxyType({}),
) -> list[VehicleStrip]:
    """Return a strip for each of the vehicles, in as many queries for three as for one."""
    vehicles = list(vehicles)
    lineages = layout_of(vehicles).lineages
    plates = _drawings({key for lineage in lineages.values() for key in lineage})
    strips = []
    for vehicle in vehicles:
        lineage = lineages[vehicle.vehicle_class_id]
        drawing = next((plates[key] for key in lineage if key in plates), None)
        strips.append(_strip(needs[vehicle.pk], drawing, plans.get(vehicle.pk)))
    return strips


def _drawings(classes: Iterable[int]) -> dict[int, Drawing]:
    """Return the first drawing of each class, with its spots."""
    rows = Drawing.objects.filter(vehicle_class__in=classes, picture__withdrawn_at__isnull=True)
    found: dict[int, Drawing] = {}
    for drawing in rows.select_related("picture").prefetch_related("spots__position"):
        found.setdefault(drawing.vehicle_class_id, drawing)
    return found


def _strip(needs: VehicleNeeds, drawing: Drawing | None, plan: VehiclePlan | None) -> VehicleStrip:
    counts = Counter(need.state for need in needs.needs if need.position.is_essential)
    return VehicleStrip(
        needs,
        _plate(drawing, needs.needs) if drawing else None,
        tuple((state, counts[state]) for state in _ORDER if counts[state]),
        plan,
    )


def _plate(drawing: Drawing, needs: Iterable[PositionNeed]) -> StripPlate:
    own = {(need.position.code, need.position.component_id): need for need in needs}
    placed = (
        (spot, own.get((spot.position.code, spot.position.component_id)))
        for spot in drawing.spots.all()
    )
    picture = drawing.picture
    return StripPlate(
        url=picture.url_320,
        width=320,
        height=round(320 * picture.height / picture.width),
        spots=tuple(StripSpot(spot.x, spot.y, need.state) for spot, need in placed if need),
    )


def _place_in_line(vehicle: Vehicle) -> tuple[bool, int, str]:
    order = vehicle.restoration_order
    return order is None, order or 0, vehicle.label


def _of_them(strip: VehicleStrip, count: int) -> str:
    every = sum(strip.blocking.values())
    if count == every:
        return "it" if count == 1 else "them"
    return f"{count} of them"
