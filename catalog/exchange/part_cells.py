"""What one cell of a list of parts says: a quantity, a share, a usability, a mass."""

import re
from decimal import Decimal
from fractions import Fraction

from django.core.exceptions import ValidationError

from catalog.models import Part
from catalog.operations.parts import whole_quantity
from catalog.reckoning.codes import normalize_tag_code, tag_problem
from catalog.reckoning.length_texts import exact
from catalog.reckoning.lengths import Length, LengthError, parse_length, why_no_reading

_COUNT = re.compile(r"(\d{1,9}(?:\.\d{1,6})?)\s*(?:off|pcs?|pieces?|no|nr|x)?\.?", re.I)
_MASS = re.compile(r"(\d+(?:\.\d+)?)\s*(kg|kgs|g|lb|lbs)?\.?", re.I)
# 1 lb = 0.45359237 kg exactly (international yard and pound agreement of 1959).
_KILOGRAMS = {"kg": Decimal(1), "g": Decimal("0.001"), "lb": Decimal("0.45359237")}
_WHOLE = {"whole", "complete", "all", "full", "yes"}
_FRACTIONS = {"half": "1/2", "½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3"}
# What groups write for each usability; common practice, no source.
_USABILITY = {
    Part.Usability.READY: "ready|good|ok|serviceable|usable|fit for use|as new|new",
    Part.Usability.REPAIR: "needs repair|repair|to repair|repairable|needs work|damaged|worn",
    Part.Usability.PATTERN: "pattern only|pattern|for pattern",
    Part.Usability.UNUSABLE: "not usable|unusable|scrap|beyond repair|useless",
    Part.Usability.UNASSESSED: "not assessed|unassessed|not checked|unknown|?",
}
_USABILITY_OF = {word: use for use, words in _USABILITY.items() for word in words.split("|")}


class CellError(ValueError):
    """A cell that cannot be recorded as it is; the message says why and what to write."""


def read_quantity(cell: str) -> int:
    """Read how many, such as ``4`` or ``4 off``.

    >>> read_quantity("4 off")
    4
    """
    found = _COUNT.fullmatch(cell)
    if found is None:
        raise CellError(
            f"“{cell}” is not a quantity. Write a whole number, and what else is to be said "
            "into the remarks."
        )
    try:
        return whole_quantity(Decimal(found[1]))
    except ValidationError as refusal:
        raise CellError(" ".join(refusal.messages)) from refusal


def read_share(cell: str) -> Decimal:
    """Read how much of a piece survives: ``half``, ``1/2``, ``0.5``, ``50 %``, ``whole``.

    >>> read_share("half"), read_share("75 %"), read_share("complete")
    (Decimal('0.500'), Decimal('0.750'), Decimal('1.000'))
    """
    words = cell.casefold().strip()
    text = "1" if words in _WHOLE else _FRACTIONS.get(words, words)
    try:
        share = Fraction(text.rstrip("% "))
    except (ValueError, ZeroDivisionError) as problem:
        raise CellError(
            f"“{cell}” does not say how much of the piece survives. Write whole, half, "
            "3/4, 0.75 or 75 %."
        ) from problem
    share = share / 100 if text.endswith("%") or share > 1 else share
    if not 0 < share <= 1:
        raise CellError(
            f"“{cell}”: what survives of a piece is more than nothing and at most the whole."
        )
    return (Decimal(share.numerator) / share.denominator).quantize(Decimal("0.001"))


def read_usability(cell: str) -> str | None:
    """Read a usability from the words that groups use, or None where they say something else."""
    use = _USABILITY_OF.get(" ".join(cell.casefold().split()))
    return use.value if use is not None else None


def read_mass(cell: str, heading: str) -> Decimal | None:
    """Read a mass in kg; a bare number has the unit of the ``heading``, or no meaning.

    >>> read_mass("28 lb", "Weight"), read_mass("12", "Weight (kg)"), read_mass("12", "Weight")
    (Decimal('12.701'), Decimal('12.000'), None)
    """
    found = _MASS.fullmatch(cell)
    headed = re.search(r"\b(kg|lb)s?\b", heading.casefold())
    unit = (found[2] if found else None) or (headed[1] if headed else "")
    factor = _KILOGRAMS.get(unit.casefold().rstrip("s"))
    if found is None or factor is None:
        return None
    mass = (Decimal(found[1]) * factor).quantize(Decimal("0.001"))
    if not 0 < exact(mass) < 10_000_000:
        raise CellError(f"“{cell}” cannot be the mass of a part.")
    return mass


def read_tag(cell: str) -> str:
    if problem := tag_problem(cell):
        raise CellError(f"Tag “{cell}”: {problem}")
    return normalize_tag_code(cell)


def read_measurement(cell: str, heading: str, unit: str) -> Length:
    try:
        length = parse_length(cell, default_unit=unit or None)
    except LengthError as problem:
        raise CellError(f"{heading}: {problem}") from problem
    if length.mm == 0:
        raise CellError(f"{heading}: a length is more than nothing.")
    if unreadable := why_no_reading(length):
        raise CellError(f"{heading}: {unreadable}")
    return length


def read_marks(cell: str) -> tuple[str, ...]:
    """Read the marks in a cell, as they stand on the part.

    >>> read_marks("T.I. 2?7; “E 14”")
    ('T.I. 2?7', 'E 14')
    """
    marks = (mark.strip().strip('“”"').strip() for mark in re.split(r"[;\n]", cell))
    return tuple(filter(None, marks))
