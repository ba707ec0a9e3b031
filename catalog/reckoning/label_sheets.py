"""Labels on sheets and rolls: their sizes, where each one lies, and how large its code can be.

Sizes are those in which labels are commonly sold, whoever makes them; the gaps between them and
the even margins are common practice, no source. All lengths are in millimeters.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

A4 = (Fraction(210), Fraction(297))
# 8.5 by 11 inches; the inch is 25.4 mm exactly.
LETTER = (Fraction("215.9"), Fraction("279.4"))

# A line of 100 mm shows whether the printer shrank the page; a roll is too narrow for it.
RULER = Fraction(100)
ROLL_RULER = Fraction(50)
# Printers leave a strip of some 4 mm white at the edge (common practice, no source).
RULER_MARGIN = Fraction(8)

# A phone needs 2.5 pixels a module: held at 30 cm, one that takes video at 1080 lines reads
# modules of 0.5 mm and one at 720 lines those of 0.75 mm (our own trial in simulated pictures).
LEAST_MODULE = Fraction(1, 2)
GOOD_MODULE = Fraction(3, 4)
LARGEST_MODULE = Fraction(1)
# Label printers have 203 dots to the inch, which is 8 to the millimeter: modules of whole dots
# have straight edges there.
MODULE_STEP = Fraction(1, 8)
QUIET_ZONE = 4
# White kept between the code's quiet zone and the edge, where a sheet may lie crooked.
PADDING = Fraction(1)
# What the printed code and the line to write on need beside the QR code.
LEAST_TEXT_WIDTH = Fraction(24)


@dataclass(frozen=True, slots=True)
class LabelStock:
    """One kind of label: the page it comes on, and how it is divided."""

    slug: str
    name: str
    page: tuple[Fraction, Fraction]
    columns: int
    rows: int
    label: tuple[Fraction, Fraction]
    gap: Fraction = Fraction(0)
    is_cut: bool = False

    @property
    def per_page(self) -> int:
        return self.columns * self.rows

    @property
    def is_roll(self) -> bool:
        return self.page == self.label

    @property
    def margins(self) -> tuple[Fraction, Fraction]:
        """The even margins at the left and at the top."""
        across = self.columns * self.label[0] + (self.columns - 1) * self.gap
        down = self.rows * self.label[1]
        return (self.page[0] - across) / 2, (self.page[1] - down) / 2


@dataclass(frozen=True, slots=True)
class LabelPlace:
    """Where one label lies: the page, counted from 0, and its upper left corner."""

    page: int
    slot: int
    x: Fraction
    y: Fraction


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line on a page, from its left or upper end."""

    x: Fraction
    y: Fraction
    length: Fraction
    is_upright: bool


def _size(width: str, height: str) -> tuple[Fraction, Fraction]:
    return Fraction(width), Fraction(height)


STOCKS: tuple[LabelStock, ...] = (
    LabelStock("a4-70x37", "A4, 24 labels of 70 × 37 mm", A4, 3, 8, _size("70", "37")),
    LabelStock(
        *("a4-63x38", "A4, 21 labels of 63.5 × 38.1 mm", A4, 3, 7, _size("63.5", "38.1")),
        gap=Fraction("2.5"),
    ),
    LabelStock(
        *("a4-99x67", "A4, 8 labels of 99.1 × 67.7 mm", A4, 2, 4, _size("99.1", "67.7")),
        gap=Fraction("2.5"),
    ),
    LabelStock("a4-105x74", "A4, 8 labels of 105 × 74 mm", A4, 2, 4, _size("105", "74")),
    LabelStock(
        *("letter-66x25", "Letter, 30 labels of 66.7 × 25.4 mm", LETTER, 3, 10),
        _size("66.675", "25.4"),
        gap=Fraction("3.175"),
    ),
    LabelStock(
        *("letter-101x50", "Letter, 10 labels of 101.6 × 50.8 mm", LETTER, 2, 5),
        _size("101.6", "50.8"),
        gap=Fraction("4.7625"),
    ),
    LabelStock(
        *("roll-57x32", "Roll, labels of 57 × 32 mm", _size("57", "32"), 1, 1, _size("57", "32"))
    ),
    LabelStock(
        *("roll-100x50", "Roll, labels of 100 × 50 mm", _size("100", "50"), 1, 1),
        _size("100", "50"),
    ),
    LabelStock(
        *("a4-cut", "A4 to cut, 14 tags of 90 × 38 mm", A4, 2, 7, _size("90", "38")), is_cut=True
    ),
    LabelStock(
        *("letter-cut", "Letter to cut, 12 tags of 90 × 38 mm", LETTER, 2, 6, _size("90", "38")),
        is_cut=True,
    ),
)
BY_SLUG = {stock.slug: stock for stock in STOCKS}


def label_places(stock: LabelStock, count: int, *, start: int = 1) -> Iterator[LabelPlace]:
    """Yield where ``count`` labels lie, row by row, beginning at label ``start`` of the first page.

    >>> [(place.page, float(place.x), float(place.y)) for place in
    ...  label_places(BY_SLUG["a4-63x38"], 3, start=21)]
    [(0, 139.25, 243.75), (1, 7.25, 15.15), (1, 73.25, 15.15)]
    """
    left, top = stock.margins
    for number in range(start - 1, start - 1 + count):
        page, slot = divmod(number, stock.per_page)
        row, column = divmod(slot, stock.columns)
        x = left + column * (stock.label[0] + stock.gap)
        yield LabelPlace(page, slot, x, top + row * stock.label[1])


def module_size(stock: LabelStock, modules: int) -> Fraction:
    """Return how large a module of a code of ``modules`` by ``modules`` can be on a label.

    ``modules`` is without the quiet zone, which is kept. The result is a whole number of eighths
    of a millimeter, and may be smaller than what a phone can read.

    >>> float(module_size(BY_SLUG["letter-66x25"], 29))
    0.625
    """
    width, height = stock.label
    side = min(height - 2 * PADDING, width - LEAST_TEXT_WIDTH - 2 * PADDING)
    steps = side / (modules + 2 * QUIET_ZONE) // MODULE_STEP
    return min(LARGEST_MODULE, steps * MODULE_STEP)


def size_problem(stock: LabelStock, modules: int) -> str | None:
    """Say why a code cannot be printed on a label, or None where it can.

    >>> size_problem(BY_SLUG["a4-70x37"], 29)
    >>> size_problem(BY_SLUG["letter-66x25"], 45)
    'On this label a square of the QR code would be 0.375 mm; phones need 0.5 mm. Take a larger \
label, or let the site have a shorter address.'
    """
    size = module_size(stock, modules)
    if size >= LEAST_MODULE:
        return None
    return (
        f"On this label a square of the QR code would be {float(size):g} mm; phones need "
        f"{float(LEAST_MODULE):g} mm. Take a larger label, or let the site have a shorter address."
    )


def ruler(stock: LabelStock) -> Line | None:
    """Return where the line of 100 mm stands among the labels.

    It is in the lower margin, or upright along the edge of a label where there is no margin.
    A roll has room for neither.

    >>> ruler(BY_SLUG["a4-70x37"])
    Line(x=Fraction(70, 1), y=Fraction(197, 2), length=Fraction(100, 1), is_upright=True)
    """
    if stock.is_roll:
        return None
    left, bottom = stock.margins
    if bottom >= RULER_MARGIN:
        x = (stock.page[0] - RULER) / 2
        return Line(x, stock.page[1] - bottom / 2, RULER, is_upright=False)
    return Line(left + stock.label[0], (stock.page[1] - RULER) / 2, RULER, is_upright=True)


def proof_ruler(stock: LabelStock) -> Line:
    """Return the line for a page without labels: 100 mm, or 50 mm on a roll.

    A little above the middle it falls on no label's edge.
    """
    width, height = stock.page
    length = ROLL_RULER if stock.is_roll else RULER
    return Line((width - length) / 2, height * Fraction(9, 20), length, is_upright=False)


def cut_marks(stock: LabelStock, *, length: Fraction = Fraction(6)) -> Iterator[Line]:
    """Yield the marks in the margins along which a plain sheet is cut.

    They end 1 mm before the labels, so that none is left on a tag that is cut a little wide.
    """
    left, top = stock.margins
    gap = Fraction(1)
    for column in range(stock.columns + 1):
        x = left + column * stock.label[0]
        for y in (top - gap - length, stock.page[1] - top + gap):
            yield Line(x, y, length, is_upright=True)
    for row in range(stock.rows + 1):
        y = top + row * stock.label[1]
        for x in (left - gap - length, stock.page[0] - left + gap):
            yield Line(x, y, length, is_upright=False)


def ruled(line: Line, *, tick: Fraction = Fraction(2)) -> tuple[Line, ...]:
    """Return a line with a tick across each of its ends, between which one measures.

    >>> [float(part.x) for part in ruled(Line(Fraction(5), Fraction(9), RULER, is_upright=False))]
    [5.0, 5.0, 105.0]
    """
    along, aside = (Fraction(0), line.length), (tick / 2, Fraction(0))
    if not line.is_upright:
        along, aside = along[::-1], aside[::-1]
    first = Line(line.x - aside[0], line.y - aside[1], tick, is_upright=not line.is_upright)
    last = Line(first.x + along[0], first.y + along[1], tick, is_upright=first.is_upright)
    return line, first, last
