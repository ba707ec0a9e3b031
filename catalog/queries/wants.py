"""Wants: what a position gives to one that is being written, and what members see of each."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.contrib.auth.models import AnonymousUser
from django.db.models import Q

from catalog.models import Drawing, KnownMark, Photo, Position, Vehicle, Want
from catalog.models.photos import PhotoQuerySet
from catalog.queries.photos import seen_by
from catalog.queries.positions import class_lineage, limits_of
from catalog.queries.vehicles import Plate, plates_of
from catalog.reckoning.limit_texts import toleranced
from catalog.reckoning.plurals import listed

# Nobody looks through more pictures to choose one.
MOST_PICTURES = 40
# A few patterns are told; nobody reads more than these.
MOST_MARKS = 4


@dataclass(frozen=True, slots=True)
class WantSheet:
    """A want with its picture and drawing as they may be shown to whoever asks."""

    want: Want
    picture: Photo | None
    plate: Plate | None
    dimensions: tuple[str, ...]


def want_sheet(want: Want, *, for_visitor: bool = False) -> WantSheet:
    """Return a want ready for its page; a visitor sees no picture that is not published."""
    allowed = seen_by(AnonymousUser())
    picture = want.picture
    if picture is not None and for_visitor:
        picture = allowed.filter(pk=picture.pk).first()
    lines = (line.strip() for line in want.dimensions.splitlines())
    return WantSheet(
        want,
        picture if picture is not None and not picture.is_withdrawn else None,
        _plate(want, for_visitor=for_visitor),
        tuple(line for line in lines if line),
    )


def pictures_for(want: Want) -> PhotoQuerySet:
    """Return the pictures among which one is chosen: of the component, its pieces, the vehicle.

    The one that the want has stays among them, whatever it shows.
    """
    own = Q(component=want.component) | Q(part__component=want.component)
    if want.vehicle_id is not None:
        own |= Q(vehicle=want.vehicle_id)
    fitting = Photo.objects.kept().filter(own).exclude(part__withdrawn_at__isnull=False)
    # Visitors see a published one at once, so that these come before all others.
    keys = fitting.order_by("-is_published", "-is_main", "pk").values_list("pk", flat=True)
    chosen = [*keys[:MOST_PICTURES], want.picture_id or 0]
    rows = Photo.objects.filter(pk__in=chosen).select_related("component", "part", "vehicle")
    return rows.order_by("-is_published", "-is_main", "pk")


def named_though_hidden(want: Want) -> Vehicle | None:
    """Return the vehicle that the want's own words name, though visitors are not to hear of it.

    A vehicle may be taken back from visitors when the want has long been written.
    """
    vehicle = want.vehicle
    if vehicle is None or (vehicle.is_published and not vehicle.is_withdrawn):
        return None
    told = f"{want.title}\n{want.words}\n{want.dimensions}\n{want.marks}".casefold()
    return vehicle if str(vehicle).casefold() in told else None


def asked_of(vehicle: Vehicle, position: Position, *others: Position) -> dict[str, Any]:
    """Return what a new want for the position says before anybody has typed a word.

    It asks for as many as there are positions: ``others`` lack the same component.
    """
    component = position.component
    title = f"{component} for {vehicle}"
    return {
        "title": title[:1].upper() + title[1:],
        "component": component,
        "vehicle": vehicle,
        "position": position,
        "quantity": 1 + len(others),
        "words": _words(vehicle, (position, *others)),
        "dimensions": "\n".join(_dimensions(vehicle, (position, *others))),
        "marks": ", ".join(_marks(vehicle, position)),
        "picture": _picture(position),
        "drawing": _drawing(vehicle, position),
    }


def _words(vehicle: Vehicle, positions: Sequence[Position]) -> str:
    pieces = "this piece" if len(positions) == 1 else f"{len(positions)} of these pieces"
    codes = listed([position.code for position in positions])
    built_to = vehicle.vehicle_class
    kind = f"{built_to.designation} {built_to.name}".strip()
    return (
        f"We are restoring {vehicle}, {kind}, and lack {pieces} at {codes}. "
        "A worn or broken one helps too: it can serve as a pattern."
    )


def _dimensions(vehicle: Vehicle, positions: Sequence[Position]) -> list[str]:
    """Return each dimension once; one that does not hold at all positions says where it does."""
    limits = limits_of(vehicle)
    codes: dict[str, list[str]] = {}
    for position in positions:
        for row in limits[position.pk]:
            if row.lower_mm is not None or row.upper_mm is not None:
                line = f"{row.characteristic.name}: {toleranced(row.lower_mm, row.upper_mm)}"
                codes.setdefault(line, []).append(position.code)
    return [
        line if len(own) == len(positions) else f"{line}, at {listed(own)}"
        for line, own in codes.items()
    ]


def _marks(vehicle: Vehicle, position: Position) -> list[str]:
    lineage = class_lineage(vehicle.vehicle_class)
    known = KnownMark.objects.filter(component=position.component).order_by("text")
    return [
        mark.text
        for mark in known
        if mark.vehicle_class_id is None or mark.vehicle_class_id in lineage
    ][:MOST_MARKS]


def _picture(position: Position) -> Photo | None:
    """Return a published photo of the component or of a piece of it, if there is one."""
    rows = seen_by(AnonymousUser()).filter(role__in=("overall", "drawing")).order_by("-is_main")
    of_kind = rows.filter(component=position.component).first()
    return of_kind or rows.filter(part__component=position.component).order_by("-is_main").first()


def _drawing(vehicle: Vehicle, position: Position) -> Drawing | None:
    """Return the first drawing of the class on which the position has its spot."""
    lineage = class_lineage(vehicle.vehicle_class)
    rows = Drawing.objects.filter(
        vehicle_class__in=lineage,
        picture__withdrawn_at__isnull=True,
        spots__position__code=position.code,
        spots__position__component=position.component,
    )
    return rows.first()


def _plate(want: Want, *, for_visitor: bool) -> Plate | None:
    if want.drawing is None or want.vehicle is None or want.position is None:
        return None
    plates = plates_of(
        want.vehicle,
        [want.position],
        {want.position.pk: "nothing"},
        published_only=for_visitor,
        link=lambda position: "#asked-for",
    )
    return next((plate for plate in plates if plate.title == want.drawing.title), None)
