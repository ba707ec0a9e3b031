"""Compute the contrast of every pair of text and ground that the tokens allow.

Sources: relative luminance and contrast ratio as defined in WCAG 2.2 (W3C Recommendation,
"relative luminance", "contrast ratio"); oklch to linear sRGB by the matrices of CSS Color
Module Level 4, section "Sample code for color conversions" (entered from memory and checked
here on white, black and the red primary).
"""

import math
import re

import pytest

from tests.project_files import ROOT

TOKEN = re.compile(r"--([a-z-]+): light-dark\(oklch\(([^)]+)\), oklch\(([^)]+)\)\)")
# WCAG 2.2 success criterion 1.4.6 (level AAA) asks 7:1 of text, 1.4.11 asks 3:1 of edges.
TEXT, EDGE = 7.0, 3.0
TEXT_PAIRS = [
    *(
        (text, ground)
        for text in ("ink", "ink-soft", "link", "signal")
        for ground in ("paper", "sheet", "wash")
    ),
    ("ink", "signal-ground"),
    ("signal", "signal-ground"),
    ("paper", "ink"),
]


def linear_rgb(lightness, chroma, hue):
    a, b = chroma * math.cos(math.radians(hue)), chroma * math.sin(math.radians(hue))
    long = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3
    middle = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3
    short = (lightness - 0.0894841775 * a - 1.2914855480 * b) ** 3
    return (
        4.0767416621 * long - 3.3077115913 * middle + 0.2309699292 * short,
        -1.2684380046 * long + 2.6097574011 * middle - 0.3413193965 * short,
        -0.0041960863 * long - 0.7034186147 * middle + 1.7076147010 * short,
    )


def luminance(oklch):
    red, green, blue = (min(1.0, max(0.0, channel)) for channel in linear_rgb(*oklch))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def tokens(theme):
    css = (ROOT / "static/css/tokens.css").read_text()
    return {match[1]: tuple(map(float, match[2 + theme].split())) for match in TOKEN.finditer(css)}


def test_conversion_knows_white_black_and_the_red_primary():
    # sRGB red is oklch(0.62796 0.25768 29.234), CSS Color 4's own example value.
    assert linear_rgb(1, 0, 0) == pytest.approx((1, 1, 1), abs=1e-6)
    assert linear_rgb(0, 0, 0) == (0, 0, 0)
    assert linear_rgb(0.62796, 0.25768, 29.234) == pytest.approx((1, 0, 0), abs=1e-3)


def test_black_on_white_is_the_greatest_contrast():
    assert contrast((0, 0, 0), (1, 0, 0)) == pytest.approx(21)


@pytest.mark.parametrize("theme", [0, 1], ids=["paper", "blueprint"])
@pytest.mark.parametrize(("text", "ground"), TEXT_PAIRS)
def test_text_stands_out_seven_to_one(theme, text, ground):
    colors = tokens(theme)

    assert contrast(colors[text], colors[ground]) >= TEXT


@pytest.mark.parametrize("theme", [0, 1], ids=["paper", "blueprint"])
@pytest.mark.parametrize("ground", ["paper", "sheet"])
def test_edges_of_fields_stand_out_three_to_one(theme, ground):
    colors = tokens(theme)

    assert contrast(colors["rule-strong"], colors[ground]) >= EDGE


def test_no_other_style_sheet_knows_a_color():
    color = re.compile(r"#[0-9a-f]{3,8}\b(?!.*\{)|oklch\(|rgba?\(|hsla?\(", re.IGNORECASE)
    # Paper has one ground and one ink of its own, outside the tokens of the screen.
    folder = ROOT / "static/css"
    paper = set((folder / "paper").glob("*.css"))
    sheets = set(folder.rglob("*.css")) - paper - {folder / "tokens.css"}

    found = [
        f"{sheet.name}: {match.group()}"
        for sheet in sheets
        for match in color.finditer(sheet.read_text())
    ]

    # The stencil's mask is opaque or not; its black is never seen.
    assert set(found) <= {"number.css: #000"}
