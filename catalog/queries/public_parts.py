"""What visitors may see of parts: number, component, marks and published photos."""

from dataclasses import dataclass

from catalog.models import Part, PartMark, Photo
from catalog.models.parts import PartQuerySet
from catalog.models.photos import PhotoQuerySet


@dataclass(frozen=True, slots=True)
class PublicPartSheet:
    """All that a visitor sees of one part."""

    label: str
    what: str
    vehicle_class: str
    photos: PhotoQuerySet
    marks: tuple[PartMark, ...]


@dataclass(frozen=True, slots=True)
class PublicPartRow:
    """A published part as the public list shows it."""

    label: str
    what: str
    url: str
    photo: Photo | None


def published_parts() -> PartQuerySet:
    rows = Part.objects.kept().filter(is_published=True)
    return rows.select_related("component", "vehicle_class")


def public_part_sheet(part: Part) -> PublicPartSheet:
    """Return what a visitor sees of a published part."""
    return PublicPartSheet(
        label=part.label,
        what=_what(part),
        vehicle_class=str(part.vehicle_class or ""),
        photos=Photo.objects.in_order().filter(part=part, is_published=True),
        marks=tuple(part.marks.all()),
    )


def public_part_rows(parts: list[Part]) -> list[PublicPartRow]:
    """Return published parts with a published photo of each that has one."""
    shown = Photo.objects.in_order().filter(part__in=parts, is_published=True)
    photos = {photo.part_id: photo for photo in reversed(shown)}
    return [
        PublicPartRow(part.label, _what(part), part.get_absolute_url(), photos.get(part.pk))
        for part in parts
    ]


def _what(part: Part) -> str:
    return str(part.component or "not identified yet")
