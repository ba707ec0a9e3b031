"""Compare the copies of a 12-megapixel photograph with what Pillow alone needs for them."""

import io
import statistics
import sys
import time

import numpy as np
from PIL import Image, ImageOps

from catalog.reckoning.pictures import derive_pictures, inspect_picture

WIDTHS = (320, 960, 2048)
ROUNDS = 5
LIMIT = 1.5


def photograph():
    """Make a 12-megapixel JPEG, lying on its side, with edges, gradients and grain."""
    random = np.random.default_rng(1889)
    coarse = random.integers(0, 255, (30, 40, 3), dtype=np.uint8)
    picture = Image.fromarray(coarse).resize((4000, 3000), Image.Resampling.BICUBIC)
    grain = random.normal(0, 6, (3000, 4000, 1))
    noisy = np.clip(np.asarray(picture) + grain, 0, 255).astype(np.uint8)
    exif = Image.Exif()
    exif[0x0112] = 6
    file = io.BytesIO()
    Image.fromarray(noisy).save(file, "JPEG", quality=88, exif=exif)
    return file.getvalue()


def by_pillow_alone(data, *, once):
    """Make the same three WebP files plainly, decoding ``once`` or for every file."""
    whole = ImageOps.exif_transpose(Image.open(io.BytesIO(data))) if once else None
    for width in WIDTHS:
        copy = whole.copy() if once else ImageOps.exif_transpose(Image.open(io.BytesIO(data)))
        copy.thumbnail((width, width), Image.Resampling.LANCZOS)
        copy.save(io.BytesIO(), "WEBP", quality=80, method=4)


def median_seconds(act):
    seconds = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        act()
        seconds.append(time.perf_counter() - start)
    return statistics.median(seconds)


def main():
    data = photograph()
    each = median_seconds(lambda: by_pillow_alone(data, once=False))
    once = median_seconds(lambda: by_pillow_alone(data, once=True))
    ours = median_seconds(lambda: derive_pictures(io.BytesIO(data)))
    facts = median_seconds(lambda: inspect_picture(io.BytesIO(data)))
    lines = (
        f"photograph: 12 megapixels, {len(data) / 1e6:.1f} MB, on its side",
        f"Pillow alone, three WebP files, decoding for each: {each:.2f} s",
        f"Pillow alone, three WebP files, decoding once:     {once:.2f} s",
        f"ours, three WebP and two JPEG files:               {ours:.2f} s",
        f"inspecting: {facts:.2f} s",
        f"ratio to Pillow decoding for each: {ours / each:.2f}; decoding once: {ours / once:.2f}",
    )
    sys.stdout.write("\n".join(lines) + "\n")
    return 0 if ours < LIMIT * once else 1


if __name__ == "__main__":
    sys.exit(main())
