"""Labels on sheets: every label on the page, none over another, and codes that can be read."""

from collections import Counter
from fractions import Fraction
from itertools import combinations

import pytest

from catalog.reckoning.label_sheets import (
    BY_SLUG,
    LEAST_MODULE,
    STOCKS,
    cut_marks,
    label_places,
    module_size,
    ruled,
    ruler,
    size_problem,
)

each_stock = pytest.mark.parametrize("stock", STOCKS, ids=lambda stock: stock.slug)


def overlap(first, second, size):
    return abs(first.x - second.x) < size[0] and abs(first.y - second.y) < size[1]


@each_stock
def test_labels_lie_on_the_page_and_on_no_other_label(stock):
    places = list(label_places(stock, stock.per_page))

    for place in places:
        assert 0 <= place.x <= stock.page[0] - stock.label[0]
        assert 0 <= place.y <= stock.page[1] - stock.label[1]
    assert not any(overlap(*pair, stock.label) for pair in combinations(places, 2))


@each_stock
def test_sheet_turned_upside_down_has_its_labels_in_the_same_places(stock):
    places = {(place.x, place.y) for place in label_places(stock, stock.per_page)}

    turned = {
        (stock.page[0] - stock.label[0] - x, stock.page[1] - stock.label[1] - y) for x, y in places
    }

    assert turned == places


def test_begun_sheet_is_filled_up_before_the_next():
    places = list(label_places(BY_SLUG["a4-70x37"], 30, start=23))

    assert Counter(place.page for place in places) == {0: 2, 1: 24, 2: 4}
    assert [place.slot for place in places[:3]] == [22, 23, 0]


@each_stock
@pytest.mark.parametrize("modules", [25, 29, 33, 37, 41])
def test_code_with_its_quiet_zone_fits_the_label_or_is_refused(stock, modules):
    size = module_size(stock, modules)

    assert size * (modules + 8) <= min(stock.label[1], stock.label[0] - 24)
    assert (size * 8).denominator == 1
    assert (size_problem(stock, modules) is None) == (size >= LEAST_MODULE)


def test_short_address_has_good_squares_on_every_label_but_the_low_one():
    poor = {stock.slug for stock in STOCKS if module_size(stock, 29) < Fraction(3, 4)}

    assert poor == {"letter-66x25"}


@each_stock
def test_ruler_is_on_the_page_and_off_the_labels_inner_part(stock):
    line = ruler(stock)
    if stock.is_roll:
        assert line is None
        return
    on_labels = [
        place
        for place in label_places(stock, stock.per_page)
        if place.x < line.x < place.x + stock.label[0]
        and place.y < line.y < place.y + stock.label[1]
    ]
    assert (line.length, on_labels) == (100, [])
    end = ruled(line)[2]
    assert 0 < end.x < stock.page[0]
    assert 0 < end.y < stock.page[1]


def test_cut_marks_stand_in_the_margins_at_every_edge():
    stock = BY_SLUG["a4-cut"]
    marks = list(cut_marks(stock))

    across = {mark.x for mark in marks if mark.is_upright}
    down = {mark.y for mark in marks if not mark.is_upright}

    assert across == {15, 105, 195}
    assert sorted(down) == [Fraction(31, 2) + 38 * row for row in range(8)]
    for mark in marks:
        end = mark.y + mark.length if mark.is_upright else mark.x + mark.length
        start = mark.y if mark.is_upright else mark.x
        edges = (Fraction(31, 2), Fraction(563, 2)) if mark.is_upright else (15, 195)
        assert end < edges[0] or start > edges[1]
