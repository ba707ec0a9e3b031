"""Keeping a photograph's file: the original byte for byte, and the copies that are shown."""

from dataclasses import dataclass
from pathlib import PurePath
from typing import BinaryIO, cast

from django.core.exceptions import ValidationError
from django.core.files import File
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage

from catalog.models.photos import SUFFIXES, WIDTHS, derived_name, original_name
from catalog.reckoning.pictures import (
    PictureError,
    PictureFacts,
    derive_pictures,
    inspect_picture,
)

# Django's own files, as uploads are, know their type parameter only in its stubs.
PictureFile = BinaryIO | File  # type: ignore[type-arg]
ORIGINAL_SUFFIXES = {
    "JPEG": "jpg",
    "PNG": "png",
    "WebP": "webp",
    "HEIC": "heic",
    "TIFF": "tif",
    "GIF": "gif",
}


@dataclass(frozen=True, slots=True)
class KeptPicture:
    """A photograph whose file is in the store: where it lies, how it was called, what it is."""

    original: str
    name: str
    facts: PictureFacts


def keep_picture(file: PictureFile, *, name: str = "") -> KeptPicture:
    """Keep the photograph in ``file`` and the copies that are shown of it.

    Needs no transaction and holds up nobody: files are named after their content, so a
    photograph that is sent twice is stored once, and one whose record is refused is seen by
    nobody. Refuse what is no photograph, in words, before anything is written.
    """
    plain = cast(BinaryIO, file.file) if isinstance(file, File) else file
    try:
        facts = inspect_picture(plain)
        original = original_name(facts.sha256, ORIGINAL_SUFFIXES[facts.format])
        if not default_storage.exists(original):
            _write(plain, original, facts)
    except PictureError as problem:
        raise ValidationError(str(problem)) from problem
    called = name or str(getattr(file, "name", None) or "")
    return KeptPicture(original, PurePath(called).name[:200], facts)


def _write(file: BinaryIO, original: str, facts: PictureFacts) -> None:
    for copy in derive_pictures(file, widths=WIDTHS):
        place = derived_name(facts.sha256, copy.bound, SUFFIXES[copy.media_type])
        default_storage.save(place, ContentFile(copy.data))
    # The original comes last: where it lies, all its copies are known to lie.
    file.seek(0)
    default_storage.save(original, File(file))
