"""What the camera wrote into a photograph file: which way up, when, and whether where."""

from datetime import datetime
from typing import BinaryIO

from PIL import ExifTags, Image, ImageFile

from catalog.reckoning.picture_files import DAMAGE

UPRIGHT = 1

# Exif 2.32 (CIPA DC-008), tag 274: the transposition that turns each orientation upright.
TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
SIDEWAYS = frozenset({5, 6, 7, 8})


def exif_of(image: ImageFile.ImageFile) -> Image.Exif:
    """Return what the camera wrote, or nothing where that part of the file is damaged.

    A photograph with unreadable notes is still a photograph, so damage is not an error.
    """
    try:
        exif = image.getexif()
        for directory in (ExifTags.IFD.Exif, ExifTags.IFD.GPSInfo):
            exif.get_ifd(directory)
    except DAMAGE:
        return Image.Exif()
    return exif


def stated_orientation(image: ImageFile.ImageFile, exif: Image.Exif) -> int:
    """Return the orientation 1 to 8 that the file states; anything else counts as upright."""
    stated = exif.get(ExifTags.Base.Orientation)
    if image.format == "HEIF":
        # The HEIC reader sets the tag back to 1 and keeps what it found here.
        stated = image.info.get("original_orientation")
    return stated if isinstance(stated, int) and stated in TURNS else UPRIGHT


def turn_to_do(image: ImageFile.ImageFile, exif: Image.Exif, file: BinaryIO) -> int:
    """Return the orientation that is left for us after the file's reader did its part.

    The TIFF reader turns pictures itself. A HEIC file states its turn in a rotation or
    mirror box, which its reader obeys (ISO/IEC 23008-12, 6.5.10 and 6.5.12); the tag
    beside the box only repeats it. A HEIC file that has the tag but no box is turned by
    the tag, or it would lie on its side.
    """
    if image.format == "TIFF" or (image.format == "HEIF" and _has_turning_box(file)):
        return UPRIGHT
    return stated_orientation(image, exif)


def taken_at(exif: Image.Exif) -> datetime | None:
    """Return when the photograph was taken by the camera's own clock, if it says so.

    The tag DateTime is left alone: it is the time of the last change to the file.
    """
    details = exif.get_ifd(ExifTags.IFD.Exif)
    for tag in (ExifTags.Base.DateTimeOriginal, ExifTags.Base.DateTimeDigitized):
        try:
            return datetime.fromisoformat(str(details.get(tag)).strip().replace(":", "-", 2))
        except ValueError:
            # Cameras whose clock was never set write zeros or blanks.
            continue
    return None


def has_location(image: ImageFile.ImageFile, exif: Image.Exif) -> bool:
    """Tell whether the file says where it was taken, in its GPS tags or in XMP."""
    place = exif.get_ifd(ExifTags.IFD.GPSInfo)
    xmp = image.info.get("xmp") or image.info.get("XML:com.adobe.xmp") or b""
    text = xmp if isinstance(xmp, str) else bytes(xmp).decode("latin-1")
    return ExifTags.GPS.GPSLatitude in place or "GPSLatitude" in text


def _has_turning_box(file: BinaryIO) -> bool:
    """Look for a rotation or mirror property in the ``meta`` box (ISO/IEC 14496-12)."""
    file.seek(0)
    while len(head := file.read(8)) == 8:
        size, kind = int.from_bytes(head[:4], "big"), head[4:]
        if kind == b"meta":
            meta = file.read(max(size - 8, 0))
            return b"irot" in meta or b"imir" in meta
        if size < 8:
            break
        file.seek(size - 8, 1)
    return False
