"""Dots and bars along a rule of sizes."""

import math

from catalog.models import Characteristic
from catalog.queries.sizes_in_hand import Limits, Sized, Spread
from catalog.reckoning.uncertainty import Measured
from catalog.templatetags.sizes import size_chart


def spread_of(*sizes, limits=()):
    sized = tuple(Sized(f"{mm}", "", Measured(mm, 0.1), (), ()) for mm in sizes)
    return Spread(Characteristic(name="bore"), tuple(limits), sized, 60.0, 40.0)


def test_a_dot_stands_where_its_size_is_on_the_rule():
    chart = size_chart(spread_of(80.1))

    assert [(dot["x"], dot["up"]) for dot in chart["dots"]] == [("51.25%", 8)]
    assert chart["ends"] == ["60 mm", "100 mm"]


def test_many_pieces_of_one_size_share_dots():
    chart = size_chart(spread_of(*[80.1] * 25))

    assert chart["pieces_a_dot"] == 3
    assert len(chart["dots"]) == 9


def test_a_bar_reaches_from_limit_to_limit_and_open_ends_to_the_end_of_the_rule():
    closed = Limits("Class E", 70.0, 80.0, 65.0, 80.0)
    open_ended = Limits("Class K", math.nan, 90.0, math.nan, 90.0)

    bars = size_chart(spread_of(limits=[closed, open_ended]))["bars"]

    assert [bar["as_new"] for bar in bars] == [
        {"x": "25.00%", "width": "25.00%"},
        {"x": "0.00%", "width": "75.00%"},
    ]
    assert [bar["worn"] for bar in bars] == [{"x": "12.50%", "width": "37.50%"}, None]
    assert bars[1]["words"] == "at most ≈ 3.543 in (90 mm)"
