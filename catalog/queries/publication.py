"""What visitors see of a record, said to members beside it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from django.db import models

from catalog.models import Part, Patent, Photo, Source, Vehicle, VehicleClass
from catalog.queries.photos import pictured
from catalog.queries.records import kind_of, link_name

Publishable = Part | Patent | Photo | Source | Vehicle | VehicleClass
PUBLISHABLE = (Part, Patent, Photo, Source, Vehicle, VehicleClass)
RULES: dict[type[models.Model], str] = {
    Vehicle: (
        "They read its story, its chain of owners and what is still needed. Names of parties and "
        "sources appear only where their own records allow it; notes and where it stands never do."
    ),
    Part: (
        "They see what it is, its marks, what was measured, and its story, here and on its printed "
        "sheet. Who gave it, where it lies, and the words of the intake never appear."
    ),
    Patent: "They see number, dates, figures and characters, and inventors who may be named.",
    VehicleClass: "They see its drawings, positions and published vehicles; notes never appear.",
    Source: (
        "They read its title where it stands behind a published statement; files and notes, and "
        "who spoke, never appear."
    ),
    Photo: "They see the photo without where it was taken, wherever its record is published.",
}


@dataclass(frozen=True, slots=True)
class Visibility:
    """Whether visitors see a record, what of it, and where members can look at the same."""

    record: Publishable
    kind: str
    is_public: bool
    rule: str
    lines: tuple[str, ...]
    preview: str


def visibility_of(record: Publishable, *, photos: Iterable[Photo] | None = None) -> Visibility:
    """Return what visitors see of a record, in at most one query.

    ``photos`` are its own, if at hand.
    """
    has_page = isinstance(record, Vehicle | Part | Patent | VehicleClass)
    return Visibility(
        record=record,
        kind=kind_of(record),
        is_public=record.is_published and not record.is_withdrawn,
        rule=RULES[type(record)],
        lines=tuple(_lines(record, photos)),
        preview=f"{record.get_absolute_url()}?as=visitor" if has_page else "",
    )


def _lines(record: Publishable, photos: Iterable[Photo] | None) -> Iterator[str]:
    if isinstance(record, Photo):
        shown = pictured(record)
        is_public = getattr(shown, "is_published", True) and record.is_published
        if record.is_published and not is_public:
            yield f"{shown} itself is not published, so nobody sees the photo yet."
        return
    if photos is None:
        photos = Photo.objects.kept().filter(**{link_name(record): record}).only("is_published")
    shown_each = [photo.is_published for photo in photos]
    if shown_each:
        yield f"{sum(shown_each)} of {len(shown_each)} photos are published."
