"""Section lining: the hatch, and the words, for each state a position can be in."""

from dataclasses import dataclass

BOX = '<path class="lining-ground" stroke="currentColor" stroke-width="2" d="M3 3h18v18H3z"/>'
BARE = '<path class="lining-ground" d="M3 3h18v18H3z"/>'
HATCH = "M3 7l4-4M3 13L13 3M3 19L19 3M7 21L21 7M13 21l8-8M19 21l2-2"
COUNTER_HATCH = "M21 7l-4-4M21 13L11 3M21 19L5 3M17 21L3 7M11 21l-8-8M5 21l-2-2"


@dataclass(frozen=True, slots=True)
class Lining:
    """One state: its slug in the record, its words, and its hatch on a 24 by 24 field."""

    slug: str
    words: str
    shapes: str


def _stroked(path: str, attributes: str = "") -> str:
    return f'<path fill="none" stroke="currentColor" {attributes}d="{path}"/>'


LININGS: dict[str, Lining] = {
    lining.slug: lining
    for lining in (
        Lining("fitted", "fitted", '<path fill="currentColor" d="M2 2h20v20H2z"/>'),
        Lining("trial", "on trial", BOX + _stroked("M7 12l4 5 7-11", 'stroke-width="2.5" ')),
        Lining("reserved", "reserved", BOX + _stroked(HATCH, 'stroke-width="1.25" ')),
        Lining(
            "available",
            "a part in hand fits",
            BARE
            + _stroked(
                "M3 3h18v18H3z",
                'stroke-width="2.5" stroke-linecap="round" stroke-dasharray="0 4.5" ',
            )
            + '<circle fill="currentColor" cx="12" cy="12" r="4"/>',
        ),
        Lining(
            "repair",
            "in hand, needs repair",
            BOX + _stroked(HATCH + COUNTER_HATCH, 'stroke-width="1.25" '),
        ),
        Lining(
            "pattern",
            "pattern in hand",
            BARE + _stroked("M3 3h18v18H3z", 'stroke-width="2" stroke-dasharray="5 4" '),
        ),
        Lining(
            "nothing",
            "nothing in hand",
            BARE
            + _stroked("M3 3h18v18H3z", 'stroke-width="1.25" ')
            + '<path class="lining-signal" fill="currentColor" d="M10 2h12v12z"/>',
        ),
    )
}

# A place on the drawing of a class: nothing is fitted to a class, so it has no state.
PLACE = Lining(
    "",
    "",
    '<circle class="lining-ground" stroke="currentColor" stroke-width="2" cx="12" cy="12" r="8"/>'
    + _stroked("M12 1v22M1 12h22", 'stroke-width="1.25" '),
)
