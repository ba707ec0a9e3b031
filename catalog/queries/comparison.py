"""Pictures to hold a part against: parts, the component, drawings, patent figures, vehicles."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Prefetch, Q

from catalog.models import (
    Component,
    Drawing,
    Part,
    PatentFigure,
    Photo,
    Position,
    PositionSpot,
    ReferenceCharacter,
)
from catalog.queries.identifications import kinds_of

OTHER_PARTS, OF_COMPONENT, DRAWINGS, FIGURES, VEHICLES = 12, 6, 4, 4, 4
# A drawing of a whole vehicle is shown around the place of the component, a third of it wide. A
# ring takes a tenth of what is shown, and on a figure as much as its character.
CROPPED_TO, RING, RING_OF_CHARACTER = 1 / 3, 0.1, 0.04


Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Beside:
    """One picture to compare with, what it shows, and the record it belongs to.

    ``spots`` are the places of the component on a drawing or figure, in fractions of it.
    """

    photo: Photo
    words: str
    url: str
    is_drawn: bool = False
    spots: tuple[Point, ...] = ()
    is_cropped: bool = False

    @property
    def view(self) -> str:
        """Return the part of the picture to show, around the first spot where it is cropped."""
        width, height = self.photo.width, self.photo.height
        if not (self.is_cropped and self.spots):
            return f"0 0 {width} {height}"
        across, down = CROPPED_TO * width, min(height, 0.75 * CROPPED_TO * width)
        x, y = self.spots[0]
        left = min(max(0.0, x * width - across / 2), width - across)
        top = min(max(0.0, y * height - down / 2), height - down)
        return f"{left:.0f} {top:.0f} {across:.0f} {down:.0f}"

    @property
    def rings(self) -> tuple[tuple[str, str, str], ...]:
        """Return a ring around each spot: its middle and its radius, in pixels of the picture."""
        width, height = self.photo.width, self.photo.height
        radius = width * (CROPPED_TO * RING if self.is_cropped else RING_OF_CHARACTER)
        return tuple(
            (f"{x * width:.0f}", f"{y * height:.0f}", f"{radius:.0f}") for x, y in self.spots
        )


@dataclass(frozen=True, slots=True)
class Comparison:
    """The part's own photos, and what to hold them against in groups."""

    own: tuple[Photo, ...]
    groups: tuple[tuple[str, tuple[Beside, ...]], ...]


def comparison_of(part: Part, component: Component | None) -> Comparison:
    """Return the part's photos beside what is pictured of ``component``."""
    own = tuple(Photo.objects.in_order().filter(part=part))
    if component is None:
        return Comparison(own, ())
    kinds = kinds_of([component.pk])[component.pk]
    groups = (
        (f"Other parts identified as {component}", _parts(part, component)),
        (f"Pictures of the {component}", _component(kinds)),
        ("Drawings on which it stands", _drawings(kinds)),
        ("Patent figures", _figures(part, kinds)),
        ("Vehicles that have one", _vehicles(kinds)),
    )
    return Comparison(own, tuple((name, rows) for name, rows in groups if rows))


def _parts(part: Part, component: Component) -> tuple[Beside, ...]:
    rows = (
        Photo.objects.kept()
        .filter(part__component=component, part__withdrawn_at__isnull=True)
        .exclude(part=part.pk)
        .select_related("part__vehicle_class")
        .order_by("-is_main", "part__number_sort", "sequence", "pk")
    )
    return tuple(
        Beside(photo, _part_words(photo.part), photo.part.get_absolute_url())
        for photo in rows[:OTHER_PARTS]
        if photo.part is not None
    )


def _part_words(part: Part) -> str:
    told = [part.label, str(part.vehicle_class or ""), part.get_identification_status_display()]
    return ", ".join(filter(None, told))


def _component(kinds: Iterable[int]) -> tuple[Beside, ...]:
    shown = Q(component__in=kinds)
    rows = Photo.objects.kept().filter(shown).select_related("component").order_by("pk")
    return tuple(
        Beside(photo, str(photo), photo.component.get_absolute_url())
        for photo in rows[:OF_COMPONENT]
        if photo.component is not None
    )


def _drawings(kinds: Iterable[int]) -> tuple[Beside, ...]:
    spots: dict[int, list[Point]] = {}
    rows = PositionSpot.objects.filter(position__component__in=kinds)
    for drawing, x, y in rows.order_by("position__sequence", "pk").values_list("drawing", "x", "y"):
        spots.setdefault(drawing, []).append((x, y))
    drawings = (
        Drawing.objects.filter(pk__in=spots, picture__withdrawn_at__isnull=True)
        .select_related("picture", "vehicle_class")
        .order_by("pk")
    )
    return tuple(
        Beside(
            row.picture,
            f"{row.vehicle_class}: {row}",
            row.vehicle_class.get_absolute_url(),
            is_drawn=True,
            spots=tuple(spots[row.pk]),
            is_cropped=True,
        )
        for row in drawings[:DRAWINGS]
    )


def _figures(part: Part, kinds: Iterable[int]) -> tuple[Beside, ...]:
    pointed = ReferenceCharacter.objects.filter(component__in=kinds).order_by("pk")
    alike = Q(likenesses__component__in=kinds) | Q(likenesses__part=part.pk)
    rows = (
        PatentFigure.objects.filter(
            Q(characters__component__in=kinds) | alike, picture__withdrawn_at__isnull=True
        )
        .select_related("picture", "patent")
        .prefetch_related(Prefetch("characters", pointed))
        .order_by("pk")
        .distinct()
    )
    return tuple(
        Beside(
            row.picture,
            str(row),
            row.patent.get_absolute_url(),
            is_drawn=True,
            spots=tuple((one.x, one.y) for one in row.characters.all()),
        )
        for row in rows[:FIGURES]
    )


def _vehicles(kinds: Iterable[int]) -> tuple[Beside, ...]:
    """Return photographs of vehicles that have a place for one, where it may be seen in use."""
    placed = Position.objects.filter(component__in=kinds)
    of_class = Q(vehicle__vehicle_class__in=placed.values("vehicle_class"))
    own = Q(vehicle__in=placed.values("vehicle"))
    rows = Photo.objects.kept().filter(of_class | own, vehicle__withdrawn_at__isnull=True)
    return tuple(
        Beside(photo, f"{photo.vehicle}: {photo}", photo.vehicle.get_absolute_url())
        for photo in rows.select_related("vehicle").order_by("-is_main", "pk")[:VEHICLES]
        if photo.vehicle is not None
    )
