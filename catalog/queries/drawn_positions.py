"""A vehicle's drawings with its positions on them, each in its state."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from catalog.models import Drawing, Vehicle
from catalog.queries.needs import PositionNeed, VehicleNeeds
from catalog.queries.positions import class_lineages


@dataclass(frozen=True, slots=True)
class Spot:
    x: float
    y: float
    code: str
    label: str
    state: str
    url: str


@dataclass(frozen=True, slots=True)
class View:
    """One drawing of a vehicle's class with the vehicle's own states."""

    title: str
    url: str
    width: int
    height: int
    alt: str
    spots: tuple[Spot, ...]


def address(need: PositionNeed) -> str:
    return need.get_absolute_url()


def views_of(
    needs: VehicleNeeds, *, link: Callable[[PositionNeed], str] = address
) -> tuple[View, ...]:
    """Return the drawings of the vehicle; ``link`` says where a spot leads."""
    return views_of_vehicles([needs], link=link)[needs.vehicle.pk]


def views_of_vehicles(
    all_needs: Iterable[VehicleNeeds], *, link: Callable[[PositionNeed], str] = address
) -> dict[int, tuple[View, ...]]:
    """Return the drawings of each vehicle by its key, in three queries however many there are."""
    all_needs = list(all_needs)
    lineages = class_lineages(needs.vehicle for needs in all_needs)
    drawings: dict[int, list[Drawing]] = {}
    rows = Drawing.objects.filter(vehicle_class__in={k for own in lineages.values() for k in own})
    for drawing in rows.select_related("picture").prefetch_related("spots"):
        drawings.setdefault(drawing.vehicle_class_id, []).append(drawing)
    return {
        needs.vehicle.pk: _views(needs, lineages[needs.vehicle.vehicle_class_id], drawings, link)
        for needs in all_needs
    }


def _views(
    needs: VehicleNeeds,
    lineage: list[int],
    drawings: Mapping[int, list[Drawing]],
    link: Callable[[PositionNeed], str],
) -> tuple[View, ...]:
    by_position = {need.position.pk: need for need in needs.needs}
    views = (
        _view(drawing, needs.vehicle, by_position, link)
        for key in lineage
        for drawing in drawings.get(key, [])
    )
    return tuple(view for view in views if view.spots)


def _view(
    drawing: Drawing,
    vehicle: Vehicle,
    by_position: Mapping[int, PositionNeed],
    link: Callable[[PositionNeed], str],
) -> View:
    drawn = ((spot, by_position.get(spot.position_id)) for spot in drawing.spots.all())
    spots = tuple(
        Spot(
            spot.x,
            spot.y,
            need.position.code,
            need.position.component.name,
            need.state,
            link(need),
        )
        for spot, need in drawn
        if need is not None
    )
    picture = drawing.picture
    alt = f"{drawing.title}, with the positions of {vehicle}"
    return View(drawing.title, picture.url_960, picture.width, picture.height, alt, spots)
