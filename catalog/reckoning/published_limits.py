"""Limits from published rules, as references to adopt; none of them says that a piece is safe."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType

from catalog.reckoning.length_texts import MM_PER_INCH

CFR_230 = "49 CFR Part 230, Steam Locomotive Inspection and Maintenance Standards"
RP_633 = "AAR Recommended Practice RP-633, journal sizes of plain bearings"
REFERENCE_ONLY = (
    "A published figure for reference. It does not say that anything is safe or lawful to run."
)


class Shape(StrEnum):
    """What a published limit needs besides itself before it can be applied."""

    FIXED = "a size of its own"
    FROM_SIZE = "measured from the original size"
    FROM_GAUGE = "measured from the gauge"
    DIFFERENCE = "between two sizes of one piece"


class PublishedLimitError(ValueError):
    """Say in words what a published limit still needs."""


@dataclass(frozen=True, slots=True)
class Ends:
    """Limits in mm as new and as worn; a side that is ``None`` is open."""

    lower: Fraction | None = None
    upper: Fraction | None = None
    worn_lower: Fraction | None = None
    worn_upper: Fraction | None = None


@dataclass(frozen=True, slots=True)
class PublishedLimit:
    """One figure of a published rule, in inches, with the section that says so.

    ``lower`` and ``upper`` are the figure itself, or what is added to the original size or to
    the gauge. ``is_seen`` tells a figure read in the published text from one set down from
    memory; ``remark`` says which part of it is which.
    """

    code: str
    document: str
    section: str
    what: str
    shape: Shape
    lower: Fraction | None = None
    upper: Fraction | None = None
    is_seen: bool = True
    remark: str = ""

    @property
    def certainty(self) -> str:
        return "seen in the published text" if self.is_seen else "from memory; check the text"

    def ends(self, base_mm: Fraction | None = None) -> Ends:
        """Return the limits in mm, from ``base_mm`` where they need an original size or a gauge.

        An original size is the greatest as new, and the figure is how far wear may take it.

        >>> limit = PUBLISHED["axle-wear"]
        >>> float(limit.ends(Fraction(127, 2)).worn_lower)
        50.8
        """
        if self.shape in (Shape.FIXED, Shape.DIFFERENCE):
            return Ends(_mm(self.lower), _mm(self.upper))
        if base_mm is None or base_mm <= 0:
            raise PublishedLimitError(
                f"{self.section} is {self.shape}: give that first, more than nothing."
            )
        if self.shape == Shape.FROM_SIZE:
            return Ends(upper=base_mm, worn_lower=_above_zero(base_mm, _mm(self.lower)))
        return Ends(_above_zero(base_mm, _mm(self.lower)), _above_zero(base_mm, _mm(self.upper)))


def _mm(inches: Fraction | None) -> Fraction | None:
    return None if inches is None else inches * MM_PER_INCH


def _above_zero(base_mm: Fraction, change: Fraction | None) -> Fraction | None:
    if change is None:
        return None
    if base_mm + change <= 0:
        raise PublishedLimitError(
            f"From {float(base_mm):g} mm the limit would be less than nothing. Check the size."
        )
    return base_mm + change


def _journal(letter: str, diameter: str, length: str) -> PublishedLimit:
    return PublishedLimit(
        f"journal-{letter.lower()}",
        RP_633,
        f"RP-633, size {letter}",
        f"plain bearing journal {letter}, {diameter} × {length} in: diameter as new",
        Shape.FIXED,
        upper=sum(map(Fraction, diameter.split()), Fraction(0)),
        remark="The size is from the published text, its letter from memory.",
    )


def _journal_length(letter: str, diameter: str, length: str) -> PublishedLimit:
    return PublishedLimit(
        f"journal-{letter.lower()}-length",
        RP_633,
        f"RP-633, size {letter}",
        f"plain bearing journal {letter}, {diameter} × {length} in: length as new",
        Shape.FIXED,
        lower=Fraction(length),
        remark=(
            "The size is from the published text, its letter from memory. Collar and fillet wear "
            "away, so that a used journal is no shorter (common practice, no source)."
        ),
    )


_JOURNALS = (
    ("A", "3 3/4", "7"),
    ("B", "4 1/4", "8"),
    ("C", "5", "9"),
    ("D", "5 1/2", "10"),
    ("E", "6", "11"),
    ("F", "6 1/2", "12"),
)
_RULES = (
    PublishedLimit(
        "axle-wear",
        CFR_230,
        "49 CFR 230.98",
        "driving and engine-truck axle journal, wear below the original diameter",
        Shape.FROM_SIZE,
        lower=Fraction(-1, 2),
    ),
    PublishedLimit(
        "wheel-diameters",
        CFR_230,
        "49 CFR 230.112(a)",
        "difference between the diameters of the two wheels on one axle",
        Shape.DIFFERENCE,
        lower=Fraction(-3, 32),
        upper=Fraction(3, 32),
    ),
    PublishedLimit(
        "inside-gauge",
        CFR_230,
        "49 CFR 230.112(b)",
        "distance between the inside of the flanges, narrow gauge",
        Shape.FROM_GAUGE,
        lower=Fraction(-7, 2),
        upper=Fraction(-25, 8),
    ),
    PublishedLimit(
        "back-to-back",
        CFR_230,
        "49 CFR 230.112(c)",
        "variation of the back-to-back distance, between two places around one axle",
        Shape.DIFFERENCE,
        lower=Fraction(-1, 4),
        upper=Fraction(1, 4),
    ),
    PublishedLimit(
        "flange-thickness",
        CFR_230,
        "49 CFR 230.113",
        "flange thickness, more than 15/16 in",
        Shape.FIXED,
        lower=Fraction(15, 16),
    ),
    PublishedLimit(
        "flange-height",
        CFR_230,
        "49 CFR 230.113",
        "flange height, 1 to 1 1/2 in",
        Shape.FIXED,
        lower=Fraction(1),
        upper=Fraction(3, 2),
    ),
    PublishedLimit(
        "rim-thickness",
        CFR_230,
        "49 CFR 230.113",
        "rim thickness, 1 in or more",
        Shape.FIXED,
        lower=Fraction(1),
    ),
)

_SIZES = [make(*line) for line in _JOURNALS for make in (_journal, _journal_length)]

PUBLISHED: Mapping[str, PublishedLimit] = MappingProxyType(
    {one.code: one for one in (*_SIZES, *_RULES)}
)
