"""Check that markers lie where they should, and that each drawing is told in words as well."""

import re
from dataclasses import dataclass
from types import SimpleNamespace

import pytest

from catalog.reckoning.section_lining import LININGS
from tests.templatetags.rendering import rendered, words


@dataclass(frozen=True)
class Drawing:
    url: str = "/wagon.png"
    width: int = 2000
    height: int = 1300
    alt: str = "Plan of the underframe"


@dataclass(frozen=True)
class Spot:
    code: str = "L1"
    label: str = "journal box"
    x: float = 0.65088
    y: float = 0.18821
    state: str = "nothing"
    url: str = "/positions/1/"


def shown_with(*spots):
    return rendered("{% position_drawing drawing spots %}", drawing=Drawing(), spots=spots)


def test_marker_lies_at_its_fraction_of_the_picture():
    assert '<svg x="65.088%" y="18.821%" overflow="visible">' in shown_with(Spot())


def test_marker_is_larger_than_the_least_target():
    sides = re.search(r'class="spot-target" .*width="(\d+)" height="(\d+)"', shown_with(Spot()))

    assert sides is not None
    assert min(int(side) for side in sides.groups()) >= 24


def test_place_without_a_state_is_bare_and_needs_no_legend():
    html = shown_with(Spot(state=""))

    assert '<span class="spot-words">journal box</span>' in html
    assert "nothing in hand" not in html


def test_every_marker_has_its_twin_in_words():
    html = shown_with(Spot(), Spot(code="R1", state="fitted", url="/positions/2/"))

    twins = re.findall(r'<a class="spot-row" href="(.+?)">.*<span class="spot-words">(.+?)</', html)

    assert twins == [
        ("/positions/1/", "journal box: nothing in hand"),
        ("/positions/2/", "journal box: fitted"),
    ]


def test_drawing_refuses_a_state_without_lining():
    with pytest.raises(KeyError, match="lost"):
        shown_with(Spot(state="lost"))


def places(html):
    """Return the drawn left end, center and right end of the bar, in percent of the width."""
    center = re.search(r'cx="([\d.]+)%"', html)
    ends = re.search(r'x1="([\d.]+)%" x2="([\d.]+)%"', html)
    return [float(place) for place in (ends[1], center[1], ends[2])]


def test_gauge_draws_two_standard_uncertainties_each_way():
    html = rendered("{% gauge 95.0 0.25 lower=94.0 upper=96.0 %}")

    left, center, right = places(html)

    # The limits span 2 mm and the margins add a fifth of that on each side: 2.8 mm in all.
    assert (left, center, right) == pytest.approx((50 - 50 / 2.8, 50, 50 + 50 / 2.8), abs=0.01)


@pytest.mark.parametrize(
    ("limits", "shown"),
    [
        ("lower=95 upper=96", "95 mm 96 mm 95.4 ± 0.1 mm; allowed is 95 to 96 mm"),
        ("lower=95", "95 mm 95.4 ± 0.1 mm; allowed is at least 95 mm"),
        ("upper=96", "96 mm 95.4 ± 0.1 mm; allowed is at most 96 mm"),
        (
            "lower=93.6625 upper=95.25",
            "93.7 mm 95.3 mm 95.4 ± 0.1 mm; allowed is 93.66 to 95.25 mm (3 11⁄16 to 3¾ in)",
        ),
        ("", "95.4 ± 0.1 mm; no limits recorded"),
    ],
)
def test_gauge_says_its_limits_in_words(limits, shown):
    assert words("{% gauge 95.4 0.1 " + limits + " %}") == shown


def test_gauge_without_uncertainty_or_limits_still_has_a_width():
    assert places(rendered("{% gauge 95.0 0.0 %}")) == [50.0, 50.0, 50.0]


def test_strip_drawing_lays_each_hatch_at_its_place_and_says_nothing_twice():
    plate = SimpleNamespace(
        url="/photos/1/320/",
        width=320,
        height=240,
        spots=[SimpleNamespace(x=0.25, y=0.5, state="fitted")],
    )

    html = rendered("{% strip_drawing plate %}", plate=plate)

    assert '<div class="strip-plate" aria-hidden="true">' in html
    assert re.findall(r'<svg x="([^"]+)" y="([^"]+)"', html) == [("25.000%", "50.000%")]
    assert LININGS["fitted"].shapes in html
