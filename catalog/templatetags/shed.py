"""The shed drawn by the server: walls, racks, shelves and boxes, each leading to its page."""

from collections.abc import Iterator, Mapping
from html import escape
from typing import Any

from django import template
from django.utils.safestring import SafeString, mark_safe

from catalog.models import Location
from catalog.reckoning.shed_plans import LINE, PADDING, Box, Plan

register = template.Library()

Kind = Location.Kind
# How each kind of place is drawn over its ground: a wall in section, the uprights of a rack, the
# board of a shelf, the lid of a box, the broken line of open ground, the trim marks of a site.
_SHAPES: Mapping[str, str] = {
    Kind.SITE: "M0 12V0h12M{x0} 0H{w}v12M{w} {y0}V{h}H{x0}M12 {h}H0V{y0}",
    Kind.BUILDING: "M0 0H{w}V{h}H0zM5 5V{y5}H{x5}V5z",
    Kind.RACK: "M0 0V{h}M{w} 0V{h}",
    Kind.SHELF: "M0 {h}H{w}",
    Kind.BOX: "M0 6H{w}",
    Kind.OUTDOORS: "M0 0H{w}V{h}H0z",
}


@register.simple_tag
def shed_drawing(plan: Plan, marks: Mapping[int, Any], sheet: str) -> SafeString:
    """Draw a plan; the places are told in words beside it, so readers pass it over."""
    drawn = "".join(_drawn(box, marks[box.key]) for box in plan.boxes)
    # What is found is marked last, lest a neighbor's line runs over it.
    pointers = "".join(_pointer(box) for box in plan.boxes if marks[box.key].is_found)
    size = f"{plan.width + 4:g} {plan.height + 4:g}"
    svg = (
        f'<svg class="shed-plan {sheet}" viewBox="-2 -2 {size}" aria-hidden="true">'
        f"{drawn}{pointers}</svg>"
    )
    return mark_safe(svg)  # noqa: S308 - all that people wrote is escaped below


def _drawn(box: Box, mark: Any) -> str:
    look = " is-found" if mark.is_found else " holds-found" if mark.holds_found else ""
    w, h = box.width, box.height
    ends = {"w": w, "h": h, "x0": w - 12, "y0": h - 12, "x5": w - 5, "y5": h - 5}
    shape = _SHAPES[mark.kind].format(**{name: f"{end:g}" for name, end in ends.items()})
    lining = ' fill="url(#shed-wall)"' if mark.kind == Kind.BUILDING else ' fill="none"'
    return (
        f'<svg x="{box.x:g}" y="{box.y:g}" width="{w:g}" height="{h:g}" overflow="visible" '
        f'class="shed-{mark.kind}{look}"><a href="{escape(mark.url)}" tabindex="-1">'
        f"<title>{escape(mark.title)}</title>"
        f'<rect class="shed-ground" width="{w:g}" height="{h:g}"/>'
        f'<path class="shed-shape"{lining} d="{shape}"/>{"".join(_words(box))}</a></svg>'
    )


def _words(box: Box) -> Iterator[str]:
    down = PADDING + LINE * 0.75
    for number, line in enumerate(box.lines):
        yield (
            f'<text class="shed-name" x="{PADDING:g}" y="{down + LINE * number:g}">'
            f"{escape(line)}</text>"
        )
    at = f'class="shed-note" x="{PADDING:g}" y="{down + LINE * len(box.lines):g}"'
    if box.is_note_beside:
        at = f'class="shed-note at-end" x="{box.width - PADDING:g}" y="{down:g}"'
    yield f"<text {at}>{escape(box.note)}</text>"


def _pointer(box: Box) -> str:
    """Draw the arrow of a leader, as drawings have it, onto a place that was looked for."""
    x, y = box.x + box.width - 14, box.y + 14
    return f'<path class="shed-pointer" d="M{x:g} {y:g}l-9 -5v10z M{x - 9:g} {y:g}h-9"/>'
