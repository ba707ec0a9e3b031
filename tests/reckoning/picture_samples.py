"""Pictures made for tests: bombs, broken files and every unusual kind of pixel."""

import io
import struct
import zlib
from pathlib import Path

import numpy as np
from PIL import Image, ImageCms, ImageOps

PICTURES = Path(__file__).parents[2] / "fixtures" / "pictures"


def fixture(name):
    return io.BytesIO((PICTURES / name).read_bytes())


def saved(picture, file_format, **options):
    file = io.BytesIO()
    picture.save(file, file_format, **options)
    file.seek(0)
    return file


def opened(derivative):
    return Image.open(io.BytesIO(derivative.data))


def patterned(size=(64, 48)):
    """Make a picture whose four corners differ, so that every wrong turn shows."""
    picture = Image.new("RGB", size, "gray")
    width, height = (side // 2 for side in size)
    for color, corner in zip(
        ("red", "lime", "blue"), ((0, 0), (width, 0), (0, height)), strict=True
    ):
        picture.paste(color, (*corner, corner[0] + width, corner[1] + height))
    return picture


def with_orientation(orientation):
    exif = Image.Exif()
    exif[0x0112] = orientation
    return exif


def png_bomb(width, height):
    """Make a valid PNG of a few kilobytes that decodes to ``width`` × ``height`` black pixels."""

    def chunk(kind, data):
        checked = kind + data
        return struct.pack(">I", len(data)) + checked + struct.pack(">I", zlib.crc32(checked))

    head = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    rows = zlib.compress(bytes((width + 7) // 8 + 1) * height, 9)
    return io.BytesIO(
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")
    )


def profile_with_red_and_green_exchanged():
    """Return the sRGB profile with two primaries swapped: what it calls red is green."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    return (
        profile.replace(b"rXYZ", b"swap", 1)
        .replace(b"gXYZ", b"rXYZ", 1)
        .replace(b"swap", b"gXYZ", 1)
    )


def sixteen_bit_ramp():
    """Make a 16-bit gray ramp from black on the left to white on the right."""
    return Image.fromarray(np.tile(np.linspace(0, 65535, 256, dtype=np.uint16), (64, 1)))


def reference(file):
    """Return the upright picture as Pillow alone makes it."""
    return ImageOps.exif_transpose(Image.open(file)).convert("RGB")


def mean_difference(one, other):
    difference = np.asarray(one, dtype=float) - np.asarray(other, dtype=float)
    return float(np.abs(difference).mean())
