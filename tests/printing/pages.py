"""Pages of PDF looked at from outside, by Poppler: as pictures, and where each word stands."""

import io
import subprocess
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from PIL import Image

POINT_MM = 25.4 / 72


@dataclass(frozen=True)
class Word:
    text: str
    page: int
    x_mm: float
    y_mm: float
    right_mm: float
    bottom_mm: float


def pictures_of(pdf, dpi):
    """Return each page as a gray picture at so many dots to the inch."""
    made = _run(["pdftoppm", "-r", str(dpi), "-gray", "-"], pdf)
    pages = []
    while made:
        picture = Image.open(io.BytesIO(made))
        picture.load()
        pages.append(picture)
        # A plain gray map is three lines of head and one byte a dot.
        head = made.index(b"\n255\n") + 5
        made = made[head + picture.width * picture.height :]
    return pages


def words_of(pdf):
    """Return every word with its box in millimeters from the upper left corner of its page."""
    tree = ET.fromstring(_run(["pdftotext", "-bbox", "-", "-"], pdf))  # noqa: S314
    space = {"html": "http://www.w3.org/1999/xhtml"}
    return [
        Word(
            word.text,
            number,
            *(float(word.get(name)) * POINT_MM for name in ("xMin", "yMin", "xMax", "yMax")),
        )
        for number, page in enumerate(tree.iterfind(".//html:page", space))
        for word in page.iterfind("html:word", space)
    ]


def _run(command, data):
    return subprocess.run(command, input=data, stdout=subprocess.PIPE, check=True).stdout  # noqa: S603
