"""Laying places out as nested boxes on a sheet of a given width, for a drawing of the shed.

Nobody has to measure the shed for it: what is in a place is drawn in it, in the order in which
the places are walked, row by row as words fill a page. The shelves of a rack stand above one
another. The same tree gives the same drawing, so that people find a place where it was
yesterday. Lengths are in pixels.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

# The mean width of a letter and the height of a line, for a condensed face of 15 pixels.
LETTER, LINE = 7.6, 20.0
# A gloved thumb hits what is this high (docs: 48 px), and words need some room beside them.
LEAST_HEIGHT, LEAST_WIDTH, MOST_NATURAL = 48.0, 96.0, 220.0
PADDING, GAP = 12.0, 8.0
# A few boxes in the last row are not drawn out to the width of the sheet.
MOST_STRETCH = 1.6


@dataclass(frozen=True, slots=True)
class Place:
    """A place with what is in it; ``is_stack`` when that stands above one another.

    >>> rack = Place(1, "Rack A", "41 parts", is_stack=True, inside=(Place(2, "Shelf 1"),))
    >>> [place.name for place in walk(rack)]
    ['Rack A', 'Shelf 1']
    """

    key: int
    name: str
    note: str = ""
    is_stack: bool = False
    inside: tuple["Place", ...] = field(default=())


@dataclass(frozen=True, slots=True)
class Box:
    """Where a place is drawn, the lines of its name, and whether its note stands beside them."""

    key: int
    x: float
    y: float
    width: float
    height: float
    lines: tuple[str, ...]
    note: str
    is_note_beside: bool


@dataclass(frozen=True, slots=True)
class Plan:
    """The boxes, outer ones before those in them, and the size of the whole drawing."""

    width: float
    height: float
    boxes: tuple[Box, ...]


def walk(place: Place) -> Iterator[Place]:
    """Return the place and all that is in it, outer ones first."""
    yield place
    for one in place.inside:
        yield from walk(one)


def lay_out(places: Sequence[Place], width: float) -> Plan:
    """Return the plan of the places on a sheet of this ``width``; its height follows.

    >>> plan = lay_out([Place(1, "Shed", inside=(Place(2, "Rack A"), Place(3, "Rack B")))], 300)
    >>> [(box.key, box.x, box.y, box.width) for box in plan.boxes]
    [(1, 0.0, 0.0, 300.0), (2, 12.0, 44.0, 134.0), (3, 154.0, 44.0, 134.0)]
    """
    boxes: list[Box] = []
    height = _rows(places, 0.0, 0.0, width, boxes)
    return Plan(width, height, tuple(boxes))


def pruned(places: Sequence[Place], most: int) -> tuple[Place, ...]:
    """Leave out the innermost places, level by level, until at most ``most`` are left.

    The outermost level always stays, however many there are of it.

    >>> deep = Place(1, "Shed", inside=(Place(2, "Rack", inside=(Place(3, "Shelf"),)),))
    >>> [one.name for one in walk(pruned([deep], 2)[0])]
    ['Shed', 'Rack']
    """
    depth = max((_depth(place) for place in places), default=1)
    while depth > 1 and sum(_count(place, depth) for place in places) > most:
        depth -= 1
    return tuple(_cut(place, depth) for place in places)


def wrapped(words: str, width: float, most: int = 2) -> tuple[str, ...]:
    """Break ``words`` into at most ``most`` lines of this ``width``; what is left is dots.

    >>> wrapped("Brannock Vale pallet", 100)
    ('Brannock Vale', 'pallet')
    >>> wrapped("Brannock Vale pallet by the door", 100)
    ('Brannock Vale', 'pallet by th…')
    """
    room = max(2, int(width / LETTER))
    lines = [""]
    for word in words.split():
        longer = f"{lines[-1]} {word}".strip()
        if len(longer) <= room or not lines[-1]:
            lines[-1] = longer
        elif len(lines) < most:
            lines.append(word)
        else:
            lines[-1] = longer
    return tuple(line if len(line) <= room else f"{line[: room - 1].rstrip()}…" for line in lines)


def _depth(place: Place) -> int:
    return 1 + max((_depth(one) for one in place.inside), default=0)


def _count(place: Place, depth: int) -> int:
    return 1 + (sum(_count(one, depth - 1) for one in place.inside) if depth > 1 else 0)


def _cut(place: Place, depth: int) -> Place:
    inside = tuple(_cut(one, depth - 1) for one in place.inside) if depth > 1 else ()
    return Place(place.key, place.name, place.note, place.is_stack, inside)


def _natural(place: Place) -> float:
    """Return how wide the place would be if all that is in it had room in one row."""
    words = max(len(place.name), len(place.note)) * LETTER + 2 * PADDING
    own = min(MOST_NATURAL, max(LEAST_WIDTH, words))
    widths = [_natural(one) for one in place.inside]
    if not widths:
        return own
    content = max(widths) if place.is_stack else sum(widths) + GAP * (len(widths) - 1)
    return max(own, content + 2 * PADDING)


def _rows(places: Sequence[Place], x: float, y: float, width: float, boxes: list[Box]) -> float:
    """Draw the places row by row from ``x`` and ``y`` on, and return the height they take.

    Those of a row stand on one floor, as what is beside a rack does in a shed.
    """
    top = y
    for row in _filled(places, width):
        widths = _stretched(row, width)
        heights = {place.key: _height(place, widths[place.key]) for place in row}
        highest, left = max(heights.values()), x
        for place in row:
            height = heights[place.key]
            _draw(place, (left, y + highest - height, widths[place.key], height), boxes)
            left += widths[place.key] + GAP
        y += highest + GAP
    return max(0.0, y - top - GAP)


def _filled(places: Sequence[Place], width: float) -> Iterator[list[Place]]:
    """Fill rows as words fill a page."""
    row: list[Place] = []
    used = 0.0
    for place in places:
        natural = min(width, _natural(place))
        if row and used + GAP + natural > width:
            yield row
            row, used = [], 0.0
        used += natural + (GAP if row else 0.0)
        row.append(place)
    if row:
        yield row


def _stretched(row: Sequence[Place], width: float) -> Mapping[int, float]:
    """Draw a row out to the width of the sheet, each box by as much as the others."""
    natural = {place.key: min(width, _natural(place)) for place in row}
    room = width - GAP * (len(row) - 1)
    factor = max(1.0, room / sum(natural.values()))
    if not any(place.inside for place in row):
        factor = min(factor, MOST_STRETCH)
    return {key: own * factor for key, own in natural.items()}


def _head(place: Place, width: float) -> float:
    """Return the height of the words over what is drawn in a place."""
    lines = len(wrapped(place.name, width - 2 * PADDING))
    return PADDING + LINE * (lines + (0 if _is_beside(place, width) else 1))


def _is_beside(place: Place, width: float) -> bool:
    """Tell whether the note has room on the line of the name."""
    letters = len(place.name) + len(place.note) + 2
    return bool(place.inside) and letters * LETTER + 2 * PADDING <= width


def _height(place: Place, width: float) -> float:
    head = _head(place, width)
    if not place.inside:
        return max(LEAST_HEIGHT, head + PADDING)
    return head + PADDING + _content(place, 0.0, 0.0, width - 2 * PADDING, []) + PADDING


def _content(place: Place, x: float, y: float, width: float, boxes: list[Box]) -> float:
    if not place.is_stack:
        return _rows(place.inside, x, y, width, boxes)
    top = y
    for one in place.inside:
        height = _height(one, width)
        _draw(one, (x, y, width, height), boxes)
        y += height
    return y - top


def _draw(place: Place, frame: tuple[float, float, float, float], boxes: list[Box]) -> None:
    x, y, width, height = frame
    lines = wrapped(place.name, width - 2 * PADDING)
    beside = _is_beside(place, width)
    boxes.append(Box(place.key, x, y, width, height, lines, place.note, beside))
    if place.inside:
        below = y + _head(place, width) + PADDING
        _content(place, x + PADDING, below, width - 2 * PADDING, boxes)
