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
    """What a published limit is, and what it needs besides itself before it can be applied."""

    NOMINAL = "the size that a new piece is made to, without its tolerance"
    IN_SERVICE = "how far wear may go"
    FROM_SIZE = "measured from the original size"
    FROM_GAUGE = "measured from the gauge"
    DIFFERENCE = "between two sizes of one piece"


class Wears(StrEnum):
    """Which way wear takes a size; it never goes the other way."""

    SMALLER = "smaller"
    LONGER = "longer"


class PublishedLimitError(ValueError):
    """Say in words what a published limit still needs; ``of`` names which of the values."""

    def __init__(self, of: str, words: str) -> None:
        super().__init__(words)
        self.of = of


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
    the gauge; both are the size where it is nominal. ``wears`` is the way wear takes it, where
    the rule does not say how far. ``is_seen`` tells a figure read in the published text from one
    set down from memory; ``remark`` says which part of it is which.
    """

    code: str
    document: str
    section: str
    what: str
    shape: Shape
    lower: Fraction | None = None
    upper: Fraction | None = None
    wears: Wears | None = None
    is_seen: bool = True
    remark: str = ""

    @property
    def certainty(self) -> str:
        return "seen in the published text" if self.is_seen else "from memory; check the text"

    @property
    def has_no_tolerance(self) -> bool:
        """Say whether the rule names a size as new without saying how exactly it is made."""
        return self.shape in (Shape.NOMINAL, Shape.FROM_SIZE)

    def ends(
        self,
        base_mm: Fraction | None = None,
        *,
        tolerance_mm: Fraction | None = None,
        wear_mm: Fraction | None = None,
    ) -> Ends:
        """Return the limits in mm, from ``base_mm`` where they need an original size or a gauge.

        A size in a table is what a piece is made to, not a limit that it may not pass: taken for
        one, it would call a piece of just that size as likely outside as inside (JCGM 106:2012,
        7.2, clause from memory), and every smaller one good. So a size as new asks for
        ``tolerance_mm`` to either side. ``wear_mm`` is how far wear may take it, and only the way
        that wear goes.

        >>> limit = PUBLISHED["axle-wear"]
        >>> ends = limit.ends(Fraction(127, 2), tolerance_mm=Fraction(2, 5))
        >>> float(ends.lower), float(ends.upper), float(ends.worn_lower)
        (63.1, 63.9, 50.8)
        """
        if self.shape == Shape.DIFFERENCE:
            return Ends(_mm(self.lower), _mm(self.upper))
        if self.shape == Shape.IN_SERVICE:
            return Ends(worn_lower=_mm(self.lower), worn_upper=_mm(self.upper))
        if self.shape == Shape.NOMINAL:
            return self._around(_mm(self.lower), tolerance_mm, wear_mm)
        if base_mm is None or base_mm <= 0:
            raise PublishedLimitError(
                "base", f"{self.section} is {self.shape}: give that first, more than nothing."
            )
        if self.shape == Shape.FROM_SIZE:
            return self._around(base_mm, tolerance_mm, -(_mm(self.lower) or Fraction(0)))
        return Ends(_above_zero(base_mm, _mm(self.lower)), _above_zero(base_mm, _mm(self.upper)))

    def _around(
        self, size: Fraction | None, tolerance: Fraction | None, wear: Fraction | None
    ) -> Ends:
        if size is None or not tolerance or tolerance < 0:
            raise PublishedLimitError(
                "tolerance",
                f"{self.section} gives a size and no tolerance. Say how far a new piece may "
                "differ from it, such as 1/64 in.",
            )
        if wear is not None and wear < tolerance:
            raise PublishedLimitError(
                "wear",
                f"Wear of {float(wear):.3g} mm lies within the ± {float(tolerance):.3g} mm of a "
                "new piece. Wear only widens the limits.",
            )
        lower, upper = _above_zero(size, -tolerance), size + tolerance
        if wear is None:
            return Ends(lower, upper)
        if self.wears == Wears.LONGER:
            return Ends(lower, upper, worn_upper=size + wear)
        return Ends(lower, upper, worn_lower=_above_zero(size, -wear))


def _mm(inches: Fraction | None) -> Fraction | None:
    return None if inches is None else inches * MM_PER_INCH


def _above_zero(base_mm: Fraction, change: Fraction | None) -> Fraction | None:
    if change is None:
        return None
    if base_mm + change <= 0:
        raise PublishedLimitError(
            "base",
            f"From {float(base_mm):g} mm the limit would be less than nothing. Check the size.",
        )
    return base_mm + change


def _journal(letter: str, diameter: str, length: str) -> PublishedLimit:
    size = sum(map(Fraction, diameter.split()), Fraction(0))
    return PublishedLimit(
        f"journal-{letter.lower()}",
        RP_633,
        f"RP-633, size {letter}",
        f"plain bearing journal {letter}, {diameter} × {length} in: diameter as new",
        Shape.NOMINAL,
        lower=size,
        upper=size,
        wears=Wears.SMALLER,
        remark=_LETTERS,
    )


def _journal_length(letter: str, diameter: str, length: str) -> PublishedLimit:
    return PublishedLimit(
        f"journal-{letter.lower()}-length",
        RP_633,
        f"RP-633, size {letter}",
        f"plain bearing journal {letter}, {diameter} × {length} in: length as new",
        Shape.NOMINAL,
        lower=Fraction(length),
        upper=Fraction(length),
        wears=Wears.LONGER,
        remark=(
            f"{_LETTERS} Collar and fillet wear away, so that a used journal is no shorter "
            "(common practice, no source)."
        ),
    )


_LETTERS = "The size is from the published text, its letter from memory."
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
        wears=Wears.SMALLER,
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
        Shape.IN_SERVICE,
        lower=Fraction(15, 16),
    ),
    PublishedLimit(
        "flange-height",
        CFR_230,
        "49 CFR 230.113",
        "flange height, 1 to 1 1/2 in",
        Shape.IN_SERVICE,
        lower=Fraction(1),
        upper=Fraction(3, 2),
    ),
    PublishedLimit(
        "rim-thickness",
        CFR_230,
        "49 CFR 230.113",
        "rim thickness, 1 in or more",
        Shape.IN_SERVICE,
        lower=Fraction(1),
    ),
)

_SIZES = [make(*line) for make in (_journal, _journal_length) for line in _JOURNALS]

PUBLISHED: Mapping[str, PublishedLimit] = MappingProxyType(
    {one.code: one for one in (*_SIZES, *_RULES)}
)
