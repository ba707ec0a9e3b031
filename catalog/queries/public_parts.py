"""What visitors may see of parts: on the page the same as on the printed sheet."""

from dataclasses import dataclass

from django.urls import reverse

from catalog.models import Part, PartMark, Photo
from catalog.models.parts import PartQuerySet
from catalog.models.photos import PhotoQuerySet
from catalog.queries.part_papers import PartPaper, part_paper


@dataclass(frozen=True, slots=True)
class PublicPartSheet:
    """All that a visitor sees of one part; ``paper`` is what its printed sheet says."""

    label: str
    what: str
    cells: tuple[tuple[str, str], ...]
    photos: PhotoQuerySet
    marks: tuple[PartMark, ...]
    paper: PartPaper
    print_url: str


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
        cells=public_cells(part),
        photos=Photo.objects.in_order().filter(part=part, is_published=True),
        marks=tuple(part.marks.all()),
        paper=part_paper(part, for_visitor=True),
        print_url=f"{reverse('print-sheet', args=['part', part.pk])}?public",
    )


def public_cells(part: Part) -> tuple[tuple[str, str], ...]:
    """Return what the title block says of a part to everybody, on the screen and on paper."""
    return (
        ("Identification", part.get_identification_status_display()),
        ("Class", str(part.vehicle_class or "")),
        ("Usability", part.get_usability_display()),
        ("Pieces", str(part.quantity)),
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
