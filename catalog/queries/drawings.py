"""Drawings of classes with the spots of positions on them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalog.models import Drawing, Position, PositionSpot
from catalog.queries.positions import positions_of_class


@dataclass(frozen=True, slots=True)
class Spot:
    """A position on a drawing; on a class it has no state, since nothing is fitted to a class."""

    x: float
    y: float
    code: str
    label: str
    url: str
    state: str = ""


@dataclass(frozen=True, slots=True)
class Plate:
    """A drawing as ``position_drawing`` shows it, with the record behind it."""

    drawing: Drawing
    url: str
    width: int
    height: int
    alt: str
    spots: tuple[Spot, ...]


def plates_of_class(lineage: list[int], positions: Iterable[Position]) -> tuple[Plate, ...]:
    drawings = Drawing.objects.filter(
        vehicle_class__in=lineage, picture__withdrawn_at__isnull=True
    ).select_related("picture", "source")
    own = {(position.code, position.component_id): position for position in positions}
    rows = drawings.prefetch_related("spots__position")
    return tuple(_plate(drawing, own) for drawing in rows)


def _plate(drawing: Drawing, own: Mapping[tuple[str, int], Position]) -> Plate:
    # A class that takes a position over may say other things of it under the same code.
    placed = [
        (spot, own.get((spot.position.code, spot.position.component_id)))
        for spot in drawing.spots.all()
    ]
    return Plate(
        drawing=drawing,
        url=drawing.picture.url_2048,
        width=drawing.picture.width,
        height=drawing.picture.height,
        alt=drawing.title,
        spots=tuple(
            Spot(
                spot.x,
                spot.y,
                position.code,
                str(position.component),
                f"#position-{position.pk}",
            )
            for spot, position in placed
            if position
        ),
    )


def spots_of(drawing: Drawing) -> list[tuple[PositionSpot, str, str]]:
    """Return the spots of a drawing in the order of the positions, with their place in percent."""
    rows = drawing.spots.select_related("position__component")
    ordered = rows.order_by("position__sequence", "position__code")
    return [(spot, f"{spot.x:.3%}", f"{spot.y:.3%}") for spot in ordered]


def codes_at(spots: Iterable[tuple[PositionSpot, str, str]]) -> list[tuple[str, str, str]]:
    """Return the codes that stand at each place of a drawing, one above the other joined."""
    by_place: dict[tuple[str, str], list[str]] = {}
    for spot, across, down in spots:
        by_place.setdefault((across, down), []).append(spot.position.code)
    return [("/".join(dict.fromkeys(codes)), *place) for place, codes in by_place.items()]


def next_without_spot(drawing: Drawing) -> Position | None:
    """Return the first position of the class that has no spot on the drawing yet."""
    placed = set(drawing.spots.values_list("position", flat=True))
    positions = positions_of_class(drawing.vehicle_class)
    return next((position for position in positions if position.pk not in placed), None)
