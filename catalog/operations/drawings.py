"""Drawings of vehicle classes, and the spots of positions on them."""

from django.core.exceptions import ValidationError
from django.db import models, transaction

from catalog.models import (
    Drawing,
    Member,
    Photo,
    Position,
    PositionSpot,
    Source,
    VehicleClass,
)
from catalog.operations.photos import record_photo
from catalog.operations.picture_files import PictureFile, keep_picture
from catalog.operations.record import change, record_new, remove
from catalog.queries.positions import class_lineage


@transaction.atomic
def add_drawing(
    vehicle_class: VehicleClass,
    picture: Photo,
    *,
    title: str,
    source: Source | None = None,
    by: Member,
) -> Drawing:
    """Make ``picture`` a drawing of the class, on which positions can have their spots."""
    if picture.is_withdrawn:
        raise ValidationError({"picture": "This picture is withdrawn; bring it back first."})
    last = vehicle_class.drawings.aggregate(last=models.Max("sequence"))["last"] or 0
    return record_new(
        Drawing,
        {
            "vehicle_class": vehicle_class,
            "picture": picture,
            "title": title.strip(),
            "source": source,
            "sequence": last + 1,
        },
        by=by,
    )


def add_drawing_from_file(
    vehicle_class: VehicleClass,
    file: PictureFile,
    *,
    title: str,
    source: Source | None = None,
    by: Member,
) -> Drawing:
    """Keep the picture in ``file`` with the class and make a drawing of it, both or neither."""
    kept = keep_picture(file)
    with transaction.atomic():
        picture = record_photo(
            kept,
            by=by,
            vehicle_class=vehicle_class,
            role=Photo.PictureRole.DRAWING,
            caption=title.strip(),
        )
        return add_drawing(vehicle_class, picture, title=title, source=source, by=by)


@transaction.atomic
def remove_drawing(drawing: Drawing, *, by: Member) -> None:
    """Take a drawing with its spots off the class; the picture stays among its photos."""
    for spot in drawing.spots.all():
        remove(spot, by=by, why=f"drawing removed: {drawing}")
    remove(drawing, by=by, why=f"drawing removed: {drawing}")


@transaction.atomic
def place_spot(
    position: Position, drawing: Drawing, x: float, y: float, *, by: Member
) -> PositionSpot:
    """Say where a position stands on a drawing, or move its spot there.

    ``x`` and ``y`` are fractions of width and height from the upper left corner.
    """
    _refuse_other_family(position, drawing)
    spot = PositionSpot.objects.filter(position=position, drawing=drawing).first()
    if spot is not None:
        return change(spot, {"x": x, "y": y}, by=by, why="spot moved")
    values = {"position": position, "drawing": drawing, "x": x, "y": y}
    return record_new(PositionSpot, values, by=by, why="spot placed")


@transaction.atomic
def remove_spot(spot: PositionSpot, *, by: Member) -> None:
    """Take the spot of a position off a drawing."""
    remove(spot, by=by, why="spot removed")


def _refuse_other_family(position: Position, drawing: Drawing) -> None:
    owner = position.vehicle.vehicle_class if position.vehicle else position.vehicle_class
    own = class_lineage(owner) if owner else []
    drawn = class_lineage(drawing.vehicle_class)
    if drawing.vehicle_class_id not in own and not set(own[:1]) & set(drawn):
        raise ValidationError(
            {"position": f"{position} is not a position of {drawing.vehicle_class}."}
        )
