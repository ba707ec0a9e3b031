"""Open a photograph file, or say in plain words why it cannot be taken."""

import re
import struct
import warnings
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from threading import RLock
from typing import BinaryIO

import pillow_heif
from PIL import Image, ImageFile, UnidentifiedImageError

MOST_PIXELS = 60_000_000
"""A 60-megapixel picture decodes to 180 MB; larger ones are refused before decoding."""

_ONE_AT_A_TIME = RLock()

# A second guard behind our own limit: Pillow only warns of pictures twice this large.
warnings.filterwarnings("error", category=Image.DecompressionBombWarning)
pillow_heif.register_heif_opener()

FORMATS = {
    "JPEG": "JPEG",
    "MPO": "JPEG",
    "PNG": "PNG",
    "WEBP": "WebP",
    "HEIF": "HEIC",
    "TIFF": "TIFF",
    "GIF": "GIF",
}
"""Pillow's name of each format that is taken, and ours.

Several makes of phone append a second picture (a depth or brightness map) to their
JPEG files; Pillow calls these MPO, and the first picture is the photograph.
"""

# MPO has no opener of its own: the JPEG one tells the two apart.
_OPENERS = tuple(name for name in FORMATS if name != "MPO")

# The first bytes of files that people pick by mistake or that arrive damaged.
_TAKEN_SIGNATURES = {
    "JPEG": rb"\xff\xd8\xff",
    "PNG": rb"\x89PNG",
    "WebP": rb"RIFF....WEBP",
    "HEIC": rb"....ftyp(hei|hev|mif1|msf1)",
    "TIFF": rb"II[*+]\0|MM\0[*+]",
    "GIF": rb"GIF8",
}
_OTHER_SIGNATURES = {
    "an AVIF picture": rb"....ftypavi[fs]",
    "a video": rb"....ftyp|RIFF....AVI |\x1a\x45\xdf\xa3",
    "a PDF document": rb"%PDF",
    "a BMP picture": rb"BM....\0\0\0\0",
    "a layered drawing": rb"8BPS|gimp xcf",
    "a vector drawing": rb"\s*(<\?xml|<svg)|%!PS",
    "a ZIP archive or an office document": rb"PK\x03\x04",
}
_TAKEN = "Photographs can be JPEG, PNG, WebP, HEIC, TIFF or GIF files."

# What Pillow and its plugins raise on broken files, whichever decoder meets the fault.
DAMAGE = (
    OSError,
    SyntaxError,
    ValueError,
    EOFError,
    LookupError,
    TypeError,
    OverflowError,
    struct.error,
    zlib.error,
)


class PictureError(ValueError):
    """A file that cannot be taken as a photograph; the message says why and what helps."""


def open_picture(file: BinaryIO) -> ImageFile.ImageFile:
    """Open ``file`` without decoding it, refusing what is not a photograph.

    The format is told from the content, never from the name. No more than the head of
    the file has been trusted afterwards: call ``load_pixels`` before using the pixels.
    """
    file.seek(0)
    start = file.read(32)
    if not start:
        raise PictureError("The file is empty (0 bytes). Copy it from the camera or phone again.")
    file.seek(0)
    try:
        image = Image.open(file, formats=_OPENERS)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise PictureError(_too_many_pixels("")) from error
    except DAMAGE as error:
        raise PictureError(_why_unreadable(start, error)) from error
    _check_pixels(image)
    return image


def load_pixels(image: ImageFile.ImageFile) -> None:
    """Decode ``image``, refusing a file that breaks off or is damaged."""
    name = FORMATS[image.format or ""]
    try:
        with whole_files_only():
            image.load()
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise PictureError(_too_many_pixels("")) from error
    except DAMAGE as error:
        raise PictureError(_damaged(name)) from error


@contextmanager
def whole_files_only() -> Iterator[None]:
    """Refuse files that break off, whatever else in the process allows them.

    Libraries that lay out documents tell Pillow for the whole process to take broken files;
    one decodes at a time here, so that two threads do not put each other's setting back.
    """
    with _ONE_AT_A_TIME:
        former = ImageFile.LOAD_TRUNCATED_IMAGES
        ImageFile.LOAD_TRUNCATED_IMAGES = False
        try:
            yield
        finally:
            ImageFile.LOAD_TRUNCATED_IMAGES = former


def _check_pixels(image: ImageFile.ImageFile) -> None:
    if image.width * image.height > MOST_PIXELS:
        raise PictureError(_too_many_pixels(f" ({image.width:,} × {image.height:,})"))


def _why_unreadable(start: bytes, error: Exception) -> str:
    for name, pattern in _TAKEN_SIGNATURES.items():
        if re.match(pattern, start, re.DOTALL):
            return _damaged(name)
    for name, pattern in _OTHER_SIGNATURES.items():
        if re.match(pattern, start, re.DOTALL):
            return f"This is {name}, not a photograph. {_TAKEN}"
    if isinstance(error, UnidentifiedImageError):
        return f"This file is not a picture. {_TAKEN}"
    return _damaged("picture")


def _damaged(name: str) -> str:
    return (
        f"This {name} file breaks off early or is damaged, so the picture cannot be read. "
        "Copy it from the camera or phone again."
    )


def _too_many_pixels(size: str) -> str:
    return (
        f"The picture has too many pixels{size}; at most {MOST_PIXELS // 1_000_000} million "
        "are taken. Save a smaller copy and send that."
    )
