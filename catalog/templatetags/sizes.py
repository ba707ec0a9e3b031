"""Sizes along a rule: a dot for each piece, and a bar for the limits of each class."""

import math
from typing import Any

from django import template

from catalog.queries.sizes_in_hand import COLUMNS
from catalog.reckoning.length_texts import format_inches, format_mm

register = template.Library()

# So many dots stand above one another at the most, each so many pixels high.
ROWS, DOT = 10, 8


@register.inclusion_tag("components/size_chart.html")
def size_chart(spread: Any) -> dict[str, Any]:
    """Draw how the pieces in hand spread over a characteristic, with the words beneath."""
    counts = spread.counts
    pieces_a_dot = max(1, math.ceil(max(counts) / ROWS))
    heights = [math.ceil(count / pieces_a_dot) for count in counts]
    return {
        "spread": spread,
        "pieces_a_dot": pieces_a_dot,
        "height": DOT * (max(*heights, 1) + 1),
        "dots": [
            {"x": f"{(column + 0.5) / COLUMNS:.2%}", "up": DOT * (row + 1)}
            for column, height in enumerate(heights)
            for row in range(height)
        ],
        "ends": [format_mm(spread.start), format_mm(spread.start + spread.span)],
        "bars": [_bar(spread, limits) for limits in spread.limits],
        "has_worn": any(limits.is_wider_when_worn for limits in spread.limits),
    }


def _bar(spread: Any, limits: Any) -> dict[str, Any]:
    return {
        "owner": limits.owner,
        "as_new": _between(spread, limits.lower, limits.upper),
        "worn": _between(spread, limits.least, limits.greatest)
        if limits.is_wider_when_worn
        else None,
        "words": _words(limits.lower, limits.upper),
        "worn_words": _words(limits.least, limits.greatest) if limits.is_wider_when_worn else "",
        "within": spread.within(limits.owner),
        "doubtful": spread.doubtful(limits.owner),
    }


def _between(spread: Any, lower: float, upper: float) -> dict[str, str]:
    """Return where a bar begins and how long it is; an open end runs to the end of the rule."""
    left = 0.0 if math.isnan(lower) else spread.place(lower)
    right = 1.0 if math.isnan(upper) else spread.place(upper)
    return {"x": f"{left:.2%}", "width": f"{right - left:.2%}"}


def _words(lower: float, upper: float) -> str:
    if math.isnan(lower):
        return f"at most {_both_units(upper)}"
    if math.isnan(upper):
        return f"at least {_both_units(lower)}"
    return f"{_both_units(lower)} to {_both_units(upper)}"


def _both_units(mm: float) -> str:
    return f"{format_inches(mm)} ({format_mm(mm)})"
