"""Positions by state in one bar, and hatches for lines and paper."""

import re
from urllib.parse import unquote

from catalog.queries.needs import StateCount
from catalog.reckoning.section_lining import LININGS
from catalog.templatetags.drawing import lining_picture, swatch
from tests.templatetags.rendering import rendered


def bar(*counts):
    return rendered("{% state_bar counts %}", counts=[StateCount(s, s, n, n) for s, n in counts])


def test_segments_follow_each_other_to_the_end():
    html = bar(("fitted", 3), ("trial", 0), ("nothing", 1))

    segments = re.findall(r'x="(.+?)" width="(.+?)".*?#lining-(\w+)', html)
    assert segments == [("0.000%", "75.000%", "fitted"), ("75.000%", "25.000%", "nothing")]


def test_figures_beneath_say_the_same_in_words():
    html = bar(("fitted", 3), ("nothing", 1))

    assert re.findall(r"<b>(\d)</b> (\w+)", html) == [("3", "fitted"), ("1", "nothing")]


def test_nothing_counted_draws_nothing():
    assert "<rect" not in bar(("fitted", 0))


def test_hatch_for_a_line_is_hidden_from_readers():
    assert 'aria-hidden="true"' in swatch("repair")
    assert LININGS["repair"].shapes in swatch("repair")


def test_hatch_for_paper_needs_no_style_sheet():
    pictures = [unquote(lining_picture(state)) for state in LININGS]

    assert [
        state for state in pictures if "currentColor" in state or "lining-ground" in state
    ] == []
