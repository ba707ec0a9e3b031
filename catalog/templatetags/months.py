"""Bars for months: how much came in each, with the same in words and as a table."""

from typing import Any

from django import template

register = template.Library()

# Room for the figures above the bars, and the height of the highest bar.
HEAD, HIGHEST = 22, 110
# With more months than these the figures would run into one another on a phone.
MOST_LABELED = 9
SHARE = 0.72


@register.inclusion_tag("components/month_bars.html")
def month_bars(intake: Any, *, scale: int = 0) -> dict[str, Any]:
    """Draw the months of an intake; drawings to be compared share one ``scale``."""
    months, most = intake.months, max(scale, intake.most, 1)
    bars = []
    for number, month in enumerate(months):
        # What came at all is seen, however little it is beside the rest.
        height = max(2, round(HIGHEST * month.pieces / most)) if month.pieces else 0
        left = (number + (1 - SHARE) / 2) / len(months)
        bars.append(
            {
                "x": f"{left:.2%}",
                "width": f"{SHARE / len(months):.2%}",
                "middle": f"{(number + 0.5) / len(months):.2%}",
                "y": HEAD + HIGHEST - height,
                "height": height,
                "pieces": month.pieces,
            }
        )
    shown = [bar for bar in bars if bar["pieces"]]
    return {
        "intake": intake,
        "height": HEAD + HIGHEST,
        "bars": shown,
        "labels": shown if len(months) <= MOST_LABELED else [],
        "first": months[0].first,
        "last": months[-1].first,
    }
