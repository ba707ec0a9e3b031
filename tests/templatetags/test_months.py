"""Bars for months."""

import datetime as dt
import re

from catalog.queries.intake import Intake, Month
from tests.templatetags.rendering import rendered, words


def bars(*pieces, **options):
    months = tuple(Month(dt.date(2026, 1 + n, 1), count) for n, count in enumerate(pieces))
    intake = Intake("Accession 2026.4", months)
    scale = f" scale={options['scale']}" if options else ""
    return rendered(f"{{% month_bars intake{scale} %}}", intake=intake)


def heights(html):
    return [int(height) for height in re.findall(r'<rect.*?height="(\d+)"', html)]


def test_bars_are_as_high_as_their_months_are_full():
    assert heights(bars(10, 0, 5)) == [110, 55]


def test_little_is_still_seen_and_drawings_can_share_a_scale():
    assert heights(bars(1, 1000)) == [2, 110]
    assert heights(bars(10, scale=20)) == [55]


def test_bars_stand_side_by_side_in_order():
    places = re.findall(r'<rect x="(.+?)%" width="(.+?)%"', bars(1, 2, 3))

    ends = [float(edge) for x, width in places for edge in (float(x), float(x) + float(width))]
    assert ends == sorted(ends)
    assert ends[-1] < 100


def test_figures_stand_over_few_bars_only():
    assert re.findall(r"<text.*?>(\d+)<", bars(4, 0, 7)) == ["4", "7"]
    assert "<text" not in bars(*range(10))


def test_words_and_table_say_the_same():
    text = words("{% month_bars intake %}", intake=Intake("All", (Month(dt.date(2026, 4, 1), 3),)))

    assert "3 pieces taken in, in April 2026." in text
    assert text.endswith("Month Pieces April 2026 3")


def test_nothing_taken_in_draws_no_bar():
    assert "<rect" not in bars(0, 0)
