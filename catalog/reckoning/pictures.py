"""What a photograph file is, and the smaller upright copies that are shown of it."""

import hashlib
import io
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import BinaryIO

from PIL import Image, ImageFile

from catalog.reckoning import picture_exif
from catalog.reckoning.picture_colors import as_srgb, resizable
from catalog.reckoning.picture_files import (
    FORMATS,
    PictureError,
    load_pixels,
    open_picture,
    whole_files_only,
)

__all__ = ["Derivative", "PictureError", "PictureFacts", "derive_pictures", "inspect_picture"]

WEBP = "image/webp"
JPEG = "image/jpeg"
LEAST_FOR_PRINTING = 640
"""From this bound on a JPEG is made beside the WebP, since PDF cannot hold WebP."""

_WRITERS: dict[str, dict[str, str | int | bool]] = {
    WEBP: {"format": "WEBP", "quality": 80, "method": 4},
    JPEG: {"format": "JPEG", "quality": 82, "optimize": True},
}


@dataclass(frozen=True, slots=True)
class PictureFacts:
    """What is known of a photograph file; ``width`` and ``height`` are those upright."""

    format: str
    media_type: str
    width: int
    height: int
    orientation: int
    sha256: str
    byte_size: int
    taken_at: datetime | None
    has_location: bool
    is_animated: bool
    mode: str


@dataclass(frozen=True, slots=True)
class Derivative:
    """A smaller copy whose longer side is at most ``bound`` pixels."""

    bound: int
    width: int
    height: int
    media_type: str
    data: bytes


@whole_files_only()
def inspect_picture(file: BinaryIO) -> PictureFacts:
    """Say what the photograph in ``file`` is, having decoded all of it once.

    Raises ``PictureError`` with a plain sentence for a file that cannot be taken.
    ``is_animated`` is true for several frames or pages, of which the first counts.

    >>> file = io.BytesIO()
    >>> Image.new("RGB", (40, 30), "teal").save(file, "PNG")
    >>> facts = inspect_picture(file)
    >>> facts.format, facts.media_type, facts.width, facts.height
    ('PNG', 'image/png', 40, 30)
    """
    image = open_picture(file)
    width, height = image.size
    mode, exif = image.mode, picture_exif.exif_of(image)
    # Asked before decoding, since the TIFF reader drops the tag once it has turned.
    orientation = picture_exif.stated_orientation(image, exif)
    _decode_cheaply(image)
    turn = picture_exif.turn_to_do(image, exif, file)
    if turn in picture_exif.SIDEWAYS:
        width, height = height, width
    return PictureFacts(
        format=FORMATS[image.format or ""],
        media_type=_media_type(image),
        width=width,
        height=height,
        orientation=orientation,
        sha256=_sha256(file),
        byte_size=file.seek(0, io.SEEK_END),
        taken_at=picture_exif.taken_at(exif),
        has_location=picture_exif.has_location(image, exif),
        is_animated=image.format != "MPO" and bool(getattr(image, "is_animated", False)),
        mode=mode,
    )


def derive_pictures(
    file: BinaryIO, *, widths: Iterable[int] = (320, 960, 2048)
) -> list[Derivative]:
    """Make the copies that pages and PDF documents show, the smallest first.

    Each of ``widths`` bounds the longer side, so that a portrait weighs no more than a
    landscape; nothing is enlarged. Every copy is a WebP; from 640 on there is a JPEG
    too, which PDF needs. All are upright, in sRGB, on white, without any notes: neither
    place nor camera nor comment. Each size is made from the next larger one, which
    costs little more than making only the largest.

    >>> file = io.BytesIO()
    >>> Image.new("RGB", (1200, 900), "teal").save(file, "JPEG")
    >>> for copy in derive_pictures(file, widths=(320, 960)):
    ...     print(copy.bound, copy.width, copy.height, copy.media_type)
    320 320 240 image/webp
    960 960 720 image/webp
    960 960 720 image/jpeg
    """
    bounds = sorted(set(widths))
    picture = _upright(file, bounds[-1])
    derivatives: list[Derivative] = []
    for bound in reversed(bounds):
        picture = _reduced(picture, _fitted(picture.size, bound))
        derivatives[:0] = _encoded(picture, bound)
    return derivatives


@whole_files_only()
def _upright(file: BinaryIO, bound: int) -> Image.Image:
    image = open_picture(file)
    # Twice the size wanted is decoded at least, as averaging needs some pixels to spare.
    target = _fitted(image.size, bound)
    drafted = image.draft(None, (2 * target[0], 2 * target[1]))
    load_pixels(image)
    turn = picture_exif.turn_to_do(image, picture_exif.exif_of(image), file)
    # The TIFF reader turns the picture while loading, so the target is fitted again.
    target = target if drafted else _fitted(image.size, bound)
    small = _reduced(resizable(image), target, box=drafted[1] if drafted else None)
    plain = as_srgb(small, image.info.get("icc_profile"))
    return plain.transpose(picture_exif.TURNS[turn]) if turn in picture_exif.TURNS else plain


def _fitted(size: tuple[int, int], bound: int) -> tuple[int, int]:
    longer = max(*size, bound)
    width, height = (max(1, round(side * bound / longer)) for side in size)
    return width, height


def _reduced(
    picture: Image.Image,
    size: tuple[int, int],
    box: tuple[float, float, float, float] | None = None,
) -> Image.Image:
    if picture.size == size:
        return picture
    return picture.resize(size, Image.Resampling.LANCZOS, box=box, reducing_gap=2.0)


def _encoded(picture: Image.Image, bound: int) -> list[Derivative]:
    media_types = (WEBP, JPEG) if bound >= LEAST_FOR_PRINTING else (WEBP,)
    return [
        Derivative(bound, picture.width, picture.height, media_type, _written(picture, media_type))
        for media_type in media_types
    ]


def _written(picture: Image.Image, media_type: str) -> bytes:
    data = io.BytesIO()
    picture.save(data, **_WRITERS[media_type])  # type: ignore[arg-type]
    return data.getvalue()


def _decode_cheaply(image: ImageFile.ImageFile) -> None:
    """Read the whole file; of a JPEG an eighth in each direction shows every break."""
    if image.format in {"JPEG", "MPO"}:
        image.draft(None, (image.width // 8, image.height // 8))
    load_pixels(image)


def _media_type(image: ImageFile.ImageFile) -> str:
    known = JPEG if image.format == "MPO" else image.get_format_mimetype()
    return known or "application/octet-stream"


def _sha256(file: BinaryIO) -> str:
    file.seek(0)
    return hashlib.file_digest(file, "sha256").hexdigest()  # type: ignore[arg-type]
