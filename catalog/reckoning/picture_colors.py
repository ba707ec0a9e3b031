"""Bring pixels of every kind to plain 8-bit sRGB on white."""

import io

import numpy as np
from PIL import Image, ImageCms

_WITH_ALPHA = frozenset({"RGBA", "LA", "PA", "RGBa", "La"})
_RESIZABLE = frozenset({"L", "RGB", "RGBA", "CMYK", "YCbCr", "LAB"})
_SRGB = ImageCms.createProfile("sRGB")


def resizable(picture: Image.Image) -> Image.Image:
    """Return ``picture`` in a mode whose pixels may be averaged, with nothing clipped.

    Palette indexes cannot be averaged and 16-bit samples would be cut off at 255.
    """
    if picture.mode in _WITH_ALPHA or "transparency" in picture.info:
        return picture.convert("RGBA")
    if picture.mode.startswith(("I", "F")):
        return _eight_bit(picture)
    if picture.mode in _RESIZABLE:
        return picture
    return picture.convert("L" if picture.mode == "1" else "RGB")


def as_srgb(picture: Image.Image, icc_profile: bytes | None) -> Image.Image:
    """Return ``picture`` flattened on white and converted to sRGB, carrying no notes.

    ``icc_profile`` says what the numbers mean; without one RGB is taken for sRGB, as is
    the convention of the web. A damaged or unfitting profile counts as none.
    """
    flat = _on_white(picture) if picture.mode == "RGBA" else picture
    plain = _by_profile(flat, icc_profile)
    # Writers copy comments and the like from here, and these may tell where someone lives.
    plain.info = {}
    return plain


def _on_white(picture: Image.Image) -> Image.Image:
    white = Image.new("RGB", picture.size, "white")
    white.paste(picture, mask=picture.getchannel("A"))
    return white


def _by_profile(picture: Image.Image, icc_profile: bytes | None) -> Image.Image:
    try:
        if icc_profile:
            source = ImageCms.ImageCmsProfile(io.BytesIO(icc_profile))
        elif picture.mode == "LAB":
            source = ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB"))
        else:
            return picture.convert("RGB")
        converted = ImageCms.profileToProfile(picture, source, _SRGB, outputMode="RGB")
    except (ImageCms.PyCMSError, OSError):
        return picture.convert("RGB")
    assert converted is not None  # noqa: S101 — only the in-place form returns nothing.
    return converted


def _eight_bit(picture: Image.Image) -> Image.Image:
    """Scale 16-bit samples by 1/257, so that 65535 becomes 255 and black stays black.

    Samples of 32 bits and floating-point samples have no agreed white, so their own
    range is stretched from black to white.
    """
    samples = np.asarray(picture, dtype=np.float64)
    low, high = 0.0, 65535.0
    if not picture.mode.startswith("I;16"):
        finite = np.nan_to_num(samples, nan=0.0, posinf=0.0, neginf=0.0)
        low, high, samples = float(finite.min()), float(finite.max()), finite
    scaled = (samples - low) * (255 / ((high - low) or 1))
    return Image.fromarray(np.rint(scaled).clip(0, 255).astype(np.uint8))
