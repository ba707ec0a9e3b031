"""On the demonstration's measuring drawings every characteristic stands by its name."""

import re

import pytest
from PIL import Image

from catalog.exchange.demonstration.ledger import FOLDER, read

MEASURED = [line for line in read("components")["component"] if "characteristics" in line]
BY_NAME = pytest.mark.parametrize("line", MEASURED, ids=lambda line: line["name"])


def source_of(line):
    drawing = FOLDER / "drawings" / line["measuring_drawing"]
    return drawing, drawing.with_suffix(".svg").read_text(encoding="utf-8")


@BY_NAME
def test_drawing_names_each_characteristic(line):
    _, svg = source_of(line)

    lettering = " ".join(re.findall(r">([^<]+)</text>", svg))

    assert [name for name, _ in line["characteristics"] if name not in lettering] == []


@BY_NAME
def test_drawing_is_as_large_as_its_source_says_and_light_enough_for_a_phone(line):
    drawing, svg = source_of(line)

    size = tuple(int(side) for side in re.findall(r'^<svg .*?width="(\d+)" height="(\d+)"', svg)[0])

    with Image.open(drawing) as picture:
        assert picture.size == size
    assert drawing.stat().st_size < 40_000
