"""Photos from a desk, many at a time: each a new part, or several of one piece."""

from collections.abc import Iterable
from typing import Any
from uuid import UUID

from django.core.exceptions import ValidationError

from catalog.models import Accession, Location, Member, Part
from catalog.operations.captures import take_in
from catalog.operations.photos import add_photo
from catalog.operations.picture_files import PictureFile


def take_in_photo(
    photo: PictureFile,
    *,
    by: Member,
    part: Part | None = None,
    accession: Accession | None = None,
    location: Location | None = None,
    capture_id: UUID | None = None,
) -> Part:
    """Record one photo of a batch: as a photo of ``part``, or as a part of its own.

    The same ``capture_id`` sent again finds what is there and records nothing. Refuse what is
    no photograph, and the same photograph twice of one part.
    """
    if part is not None:
        add_photo(photo, by=by, part=part, capture_id=capture_id)
        return part
    return take_in(
        by=by, photos=[photo], accession=accession, location=location, capture_id=capture_id
    )


def take_in_photos(
    photos: Iterable[PictureFile], *, by: Member, together: bool, **where: Any
) -> tuple[list[Part], list[str]]:
    """Record several photos, ``together`` as one part or each as its own.

    Return the parts, and what was refused of the other photos, in words: one file picked by
    mistake does not lose the others.
    """
    parts: list[Part] = []
    refused = []
    for photo in photos:
        part = parts[0] if together and parts else None
        try:
            taken = take_in_photo(photo, by=by, part=part, **where)
        except ValidationError as refusal:
            refused.append(f"{photo.name}: {' '.join(refusal.messages)}")
        else:
            parts += [] if taken == part else [taken]
    return parts, refused
