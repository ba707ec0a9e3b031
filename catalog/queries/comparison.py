"""Pictures to hold a part against: other parts, the component, drawings, patent figures."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Q

from catalog.models import Component, Drawing, Part, PatentFigure, Photo
from catalog.queries.identifications import kinds_of

OTHER_PARTS, OF_COMPONENT, DRAWINGS, FIGURES = 12, 6, 4, 4


@dataclass(frozen=True, slots=True)
class Beside:
    """One picture to compare with, what it shows, and the record it belongs to."""

    photo: Photo
    words: str
    url: str
    is_drawn: bool = False


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
    rows = (
        Drawing.objects.filter(spots__position__component__in=kinds)
        .filter(picture__withdrawn_at__isnull=True)
        .select_related("picture", "vehicle_class")
        .order_by("pk")
        .distinct()
    )
    return tuple(
        Beside(
            row.picture, f"{row.vehicle_class}: {row}", row.vehicle_class.get_absolute_url(), True
        )
        for row in rows[:DRAWINGS]
    )


def _figures(part: Part, kinds: Iterable[int]) -> tuple[Beside, ...]:
    shown = (
        Q(characters__component__in=kinds)
        | Q(likenesses__component__in=kinds)
        | Q(likenesses__part=part.pk)
    )
    rows = (
        PatentFigure.objects.filter(shown, picture__withdrawn_at__isnull=True)
        .select_related("picture", "patent")
        .order_by("pk")
        .distinct()
    )
    return tuple(
        Beside(row.picture, str(row), row.patent.get_absolute_url(), True) for row in rows[:FIGURES]
    )
