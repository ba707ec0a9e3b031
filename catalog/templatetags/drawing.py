"""Drawings made by the server: positions on a plate, and a measurement on its limits."""

from collections.abc import Iterable
from functools import cache
from html import escape
from typing import Any
from urllib.parse import quote

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from catalog.reckoning.fit_words import limits_in_words
from catalog.reckoning.length_texts import format_inches, format_mm
from catalog.reckoning.section_lining import LININGS, PLACE
from catalog.reckoning.uncertainty import Measured

register = template.Library()


@register.inclusion_tag("components/position_drawing.html")
def position_drawing(drawing: Any, spots: Iterable[Any], *, listed: bool = True) -> dict[str, Any]:
    """Lay hatched markers over a drawing, and list the same positions in words below.

    A page that lists its positions itself, and shows the legend, asks for ``listed=False``.

    Spots are placed in percent of the picture, not in a scaled view box, so that a marker keeps
    the size of a fingertip however small the picture gets. Spots without a state are bare
    places, as on the drawing of a class, and need no legend.
    """
    spots = list(spots)
    return {
        "drawing": drawing,
        "listed": listed,
        "has_states": any(spot.state for spot in spots),
        "markers": mark_safe("".join(map(_marker, spots))),  # noqa: S308 - escaped where made
        "rows": mark_safe("\n".join(map(_row, spots))) if listed else "",  # noqa: S308 - likewise
    }


# A vehicle has up to a hundred spots; a template would take longer over each than all of these.
_MARKER = (
    '<svg x="{x:.3%}" y="{y:.3%}" overflow="visible"><a href="{url}" tabindex="-1">'
    "<title>{code} {words}</title>"
    '<rect class="spot-target" x="-16" y="-16" width="32" height="32"/>'
    '<g class="lining" transform="translate(-12 -12)">{shapes}</g>'
    '<text class="spot-code" y="27">{code}</text></a></svg>'
)
_ROW = (
    '<li><a class="spot-row" href="{url}"><svg class="lining" width="24" height="24" '
    'viewBox="0 0 24 24" aria-hidden="true">{shapes}</svg> <span class="number">{code}</span> '
    '<span class="spot-words">{words}</span></a></li>'
)


def _marker(spot: Any) -> str:
    return _MARKER.format(x=spot.x, y=spot.y, **_told(spot))


def _row(spot: Any) -> str:
    return _ROW.format(**_told(spot))


def _told(spot: Any) -> dict[str, str]:
    """Return what a spot shows, everything that people wrote escaped."""
    lining = LININGS[spot.state] if spot.state else PLACE
    words = f"{spot.label}: {lining.words}" if lining.words else spot.label
    return {
        "url": escape(spot.url),
        "code": escape(spot.code),
        "words": escape(words),
        "shapes": lining.shapes,
    }


@register.inclusion_tag("components/strip_drawing.html")
def strip_drawing(plate: Any) -> dict[str, Any]:
    """Draw a vehicle small, its positions hatched; the counts beside it say the same in words."""
    spots = [
        {"x": f"{spot.x:.3%}", "y": f"{spot.y:.3%}", "lining": LININGS[spot.state]}
        for spot in plate.spots
    ]
    return {"plate": plate, "spots": spots}


@register.filter
def in_percent(share: float) -> str:
    """Write a fraction of a picture's width or height as its spots are placed by."""
    return f"{share:.3%}"


@register.filter
@cache
def swatch(state: str) -> SafeString:
    """Draw the hatch of a state for a line that says its words itself."""
    return format_html(
        '<svg class="lining" width="24" height="24" viewBox="0 0 24 24" aria-hidden="true">'
        "{}</svg>",
        mark_safe(LININGS[state].shapes),  # noqa: S308 - our own drawing
    )


@register.filter
def lining_picture(state: str) -> str:
    """Return the hatch of a state as an image address, in ink, for paper."""
    shapes = LININGS[state].shapes.replace("currentColor", "#1c2740")
    shapes = shapes.replace('class="lining-ground"', 'fill="#fff"')
    picture = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24">{shapes}</svg>'
    return f"data:image/svg+xml,{quote(picture)}"


@register.inclusion_tag("components/state_bar.html")
def state_bar(counts: Iterable[Any]) -> dict[str, Any]:
    """Draw how many positions are in each state as one hatched bar, with the words beneath.

    The hatches are those of ``components/state_patterns.html``, included once a page.
    """
    held = [count for count in counts if count.count]
    total, done, segments = sum(count.count for count in held), 0, []
    for one in held:
        place = {"x": f"{done / total:.3%}", "width": f"{one.count / total:.3%}"}
        segments.append({"state": one.state, "words": one.words, "count": one.count, **place})
        done += one.count
    return {"segments": segments}


@register.inclusion_tag("components/gauge.html")
def gauge(
    value: float,
    uncertainty: float,
    *,
    lower: float | None = None,
    upper: float | None = None,
    verdict: str = "",
    outside: bool = False,
) -> dict[str, Any]:
    """Draw a measurement with twice its standard uncertainty against its limits, all in mm.

    The words give the standard uncertainty, as the record does everywhere.
    """
    least, greatest = value - 2 * uncertainty, value + 2 * uncertainty
    ends = [end for end in (least, greatest, lower, upper) if end is not None]
    margin = (max(ends) - min(ends) or 1.0) * 0.2
    start, span = min(ends) - margin, max(ends) - min(ends) + 2 * margin

    def place(mm: float) -> float:
        return 100 * (mm - start) / span

    left = 0.0 if lower is None else place(lower)
    right = 100.0 if upper is None else place(upper)
    return {
        "reading": str(Measured(value, uncertainty)) if uncertainty else format_mm(value),
        "allowed": _allowed(lower, upper),
        "value_x": f"{place(value):.2f}%",
        "bar": (f"{place(least):.2f}%", f"{place(greatest):.2f}%"),
        "band": (f"{left:.2f}%", f"{right - left:.2f}%"),
        "lower": lower,
        "lower_x": f"{left:.2f}%",
        "upper": upper,
        "upper_x": f"{right:.2f}%",
        "verdict": verdict,
        "outside": outside,
    }


def _allowed(lower: float | None, upper: float | None) -> str:
    """Return the limits in words, and in inches too where they were drawn in fractions."""
    if lower is None and upper is None:
        return "no limits recorded"
    words = f"allowed is {limits_in_words(lower, upper)}"
    inches = [format_inches(end) for end in (lower, upper) if end is not None]
    if any(end.startswith("≈") for end in inches):
        return words
    *first, last = inches
    return f"{words} ({' to '.join([*(end.removesuffix(' in') for end in first), last])})"
