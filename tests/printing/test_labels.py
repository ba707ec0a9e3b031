"""Labels on paper: where they lie to a tenth of a millimeter, and codes read back from pictures."""

from io import BytesIO
from random import Random

import numpy as np
import pytest
import zxingcpp
from django.core.exceptions import ValidationError
from PIL import Image
from pypdf import PdfReader

from catalog.printing.labels import Label, Printer, label_sheet, proof_sheet
from catalog.reckoning.codes import new_tag_code
from catalog.reckoning.label_sheets import BY_SLUG, STOCKS, label_places
from tests.printing.pages import pictures_of, words_of

ADDRESS = "https://catalog.example.org/t/"
each_stock = pytest.mark.parametrize("stock", STOCKS, ids=lambda stock: stock.slug)


def labels(count, *, seed=1):
    chance = Random(seed)
    codes = [new_tag_code(chance) for _ in range(count)]
    return [Label(code, ADDRESS + code.replace("-", "")) for code in codes]


def read_back(picture):
    found = zxingcpp.read_barcodes(np.asarray(picture))
    return {code.text: code.position for code in found}


def damaged(picture, share, *, seed=1):
    """Cover ``share`` of the picture with one blot, black or white, anywhere on it."""
    chance = Random(seed)
    side = round((share * picture.width * picture.height) ** 0.5)
    spoiled = picture.copy()
    place = (chance.randint(0, picture.width - side), chance.randint(0, picture.height - side))
    spoiled.paste(chance.choice([0, 255]), (*place, place[0] + side, place[1] + side))
    return spoiled


@each_stock
def test_page_has_the_size_of_the_paper_and_every_label_is_printed_once(stock):
    count = 2 * stock.per_page + 1
    pages = PdfReader(BytesIO(label_sheet(labels(count), stock, Printer()))).pages

    assert len(pages) == 3
    for page in pages:
        size = [float(side) * 25.4 / 72 for side in page.mediabox[2:]]
        assert size == pytest.approx([float(side) for side in stock.page], abs=0.01)


@each_stock
def test_codes_are_read_at_150_dots_where_their_labels_lie(stock):
    made = labels(stock.per_page)
    picture = pictures_of(label_sheet(made, stock, Printer()), 150)[0]

    found = read_back(picture)

    assert set(found) == {label.address for label in made}
    for label, place in zip(made, label_places(stock, stock.per_page), strict=True):
        corner = found[label.address].top_left
        x_mm, y_mm = corner.x / 150 * 25.4, corner.y / 150 * 25.4
        assert place.x < x_mm < place.x + stock.label[0] / 2
        assert place.y < y_mm < place.y + stock.label[1] / 2


def test_codes_are_read_with_seven_percent_of_their_area_damaged():
    stock = BY_SLUG["a4-70x37"]
    label = labels(1)[0]
    picture = pictures_of(label_sheet([label], stock, Printer()), 150)[0]
    at = read_back(picture)[label.address]
    # From finder to finder, with the four modules of the quiet zone around it.
    margin = round(4 * 0.75 / 25.4 * 150)
    box = (at.top_left.x, at.top_left.y, at.bottom_right.x, at.bottom_right.y)
    code = picture.crop((*(c - margin for c in box[:2]), *(c + margin for c in box[2:])))
    share = 0.07 * (box[2] - box[0]) * (box[3] - box[1]) / (code.width * code.height)

    # A blot on a finder pattern hides the code from any reader; so it is put on the data.
    spoiled = [blot_on_data(code, share, seed=seed) for seed in range(20)]

    assert [set(read_back(one)) for one in spoiled] == [{label.address}] * 20


def blot_on_data(code, share, *, seed):
    """Damage the code where no finder pattern stands: in its right lower two thirds."""
    third = code.width * 2 // 5
    rest = code.crop((third, third, code.width, code.height))
    blotted = damaged(
        rest, share * code.width * code.height / (rest.width * rest.height), seed=seed
    )
    whole = code.copy()
    whole.paste(blotted, (third, third))
    return whole


@each_stock
def test_code_words_lie_within_a_tenth_of_a_millimeter_of_the_pitch(stock):
    made = labels(stock.per_page)
    words = {word.text: word for word in words_of(label_sheet(made, stock, Printer()))}
    places = list(label_places(stock, stock.per_page))
    first = words[made[0].code]

    for label, place in zip(made, places, strict=True):
        word = words[label.code]
        assert word.x_mm - first.x_mm == pytest.approx(float(place.x - places[0].x), abs=0.1)
        assert word.y_mm - first.y_mm == pytest.approx(float(place.y - places[0].y), abs=0.1)
        assert place.x < word.x_mm
        assert word.right_mm < place.x + stock.label[0]


def test_labels_begin_where_the_sheet_does_and_move_with_the_printer():
    stock, made = BY_SLUG["a4-63x38"], labels(2)
    plain = {word.text: word for word in words_of(label_sheet(made, stock, Printer()))}
    askew = Printer(start=21, right_mm=1.5, down_mm=-0.5)
    moved = {word.text: word for word in words_of(label_sheet(made, stock, askew))}

    last, following = moved[made[0].code], moved[made[1].code]
    assert (last.page, following.page) == (0, 1)
    assert last.x_mm - plain[made[0].code].x_mm == pytest.approx(2 * 66 + 1.5, abs=0.1)
    assert last.y_mm - plain[made[0].code].y_mm == pytest.approx(6 * 38.1 - 0.5, abs=0.1)


def ink(picture, dpi, box_mm):
    """Return which dots of a box are dark, as rows."""
    left, top, right, bottom = (round(side / 25.4 * dpi) for side in box_mm)
    return np.asarray(picture)[top:bottom, left:right] < 160


@pytest.mark.parametrize("slug", ["a4-63x38", "letter-66x25", "a4-cut"])
def test_ruler_in_the_margin_measures_a_hundred_millimeters(slug):
    stock = BY_SLUG[slug]
    picture = pictures_of(label_sheet(labels(1), stock, Printer()), 600)[0]
    width, height = (float(side) for side in stock.page)
    middle = height - float(stock.margins[1]) / 2

    strip = ink(picture, 600, (width / 2 - 60, middle - 0.9, width / 2 + 60, middle - 0.4))

    dark = np.flatnonzero(strip.all(axis=0)) / 600 * 25.4
    assert dark[-1] - dark[0] == pytest.approx(100.2, abs=0.1)


def test_upright_ruler_stands_where_no_margin_is():
    picture = pictures_of(label_sheet(labels(1), BY_SLUG["a4-70x37"], Printer()), 600)[0]

    strip = ink(picture, 600, (70.4, 60, 70.9, 240))

    dark = np.flatnonzero(strip.all(axis=1)) / 600 * 25.4
    assert dark[-1] - dark[0] == pytest.approx(100.2, abs=0.1)


def test_label_too_small_for_its_code_is_refused_with_the_reason():
    long = Label("K7Q-2M9V", "https://catalog.example.org/" + "shed/" * 8 + "t/K7Q2M9V")

    with pytest.raises(ValidationError, match=r"would be 0\.375 mm; phones need 0\.5 mm"):
        label_sheet([long], BY_SLUG["letter-66x25"], Printer())


def test_location_label_tells_name_and_way():
    label = Label("K7Q-2M9V", ADDRESS + "K7Q2M9V", heading="Shelf 2", detail="Shed › Long rack")

    told = [word.text for word in words_of(label_sheet([label], STOCKS[0], Printer()))]

    assert told[-7:] == ["Shelf", "2", "Shed", "›", "Long", "rack", "K7Q-2M9V"]


@each_stock
def test_proof_outlines_the_labels_and_holds_no_code(stock):
    pages = pictures_of(proof_sheet(stock, Printer()), 150)

    assert len(pages) == 1
    assert read_back(pages[0]) == {}
    assert (np.asarray(pages[0]) < 160).any()


def test_damage_covers_what_it_says():
    white = Image.new("L", (200, 200), 128)

    spoiled = np.asarray(damaged(white, 0.07))

    assert (spoiled != 128).mean() == pytest.approx(0.07, abs=0.005)
