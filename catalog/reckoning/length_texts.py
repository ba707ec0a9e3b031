"""Lengths as they are shown: fractions as on drawings, millimeters, and gauges."""

import math
import unicodedata
from decimal import Decimal
from fractions import Fraction

MM_PER_INCH = Fraction("25.4")

# The record keeps six decimals of a millimeter: half of the last one cannot be told apart.
_SAME_MM = Fraction(1, 2_000_000)
_GLYPHS = {unicodedata.normalize("NFKC", glyph): glyph for glyph in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}

Number = int | float | Decimal | Fraction


def format_inches(mm: Number, *, denominator: int = 64) -> str:
    r"""Write ``mm`` in inches with a fraction, as on a drawing.

    Exact in ``denominator``-ths or exact in thousandths is written so; anything else is rounded to
    thousandths and marked with ≈, so that a converted value never passes for a reading.

    >>> format_inches(Fraction("95.25")), format_inches(Fraction("33.734375")), format_inches(100)
    ('3¾ in', '1\xa021⁄64 in', '≈ 3.937 in')
    """
    inches = exact(mm) / MM_PER_INCH
    nearest = Fraction(round(inches * denominator), denominator)
    if _is_same(nearest, inches):
        return f"{_mixed(nearest)} in"
    return _decimal_inches(inches)


def format_mm(mm: Number, *, resolution_mm: Number | None = None) -> str:
    """Write ``mm`` with no more decimals than ``resolution_mm`` supports.

    Without a resolution, tenths are given and a bare ``.0`` is dropped; below a millimeter two
    digits that count, since a clearance of 0.05 mm is neither nothing nor a tenth. Halves round
    away from zero, as people round by hand.

    >>> format_mm(Fraction("95.25")), format_mm(762), format_mm(355, resolution_mm=Fraction(1, 10))
    ('95.3 mm', '762 mm', '355.0 mm')
    >>> format_mm(Fraction("0.396875")), format_mm(0.02), format_mm(-0.05)
    ('0.4 mm', '0.02 mm', '−0.05 mm')
    """
    if resolution_mm is None:
        size = abs(exact(mm))
        places = 1 - math.floor(math.log10(size)) if 0 < size < 1 else 1
        return f"{plain_decimal(rounded(mm, places))} mm".replace("-", "−")
    return f"{rounded(mm, _decimals_for(exact(resolution_mm)))} mm".replace("-", "−")


def format_doubtful(mm: Number, doubt_mm: Number) -> str:
    """Write ``mm`` with its ±, and neither with digits that the ± makes worthless.

    Two significant digits of the ± at most, and as many decimals of the value: JCGM 100, 7.2.6.
    A last digit of the ± that is a nought says nothing and is left out.

    >>> format_doubtful(Fraction("215.9"), Fraction("1.5875")), format_doubtful(64.1, 0.5)
    ('215.9 ± 1.6 mm', '64.1 ± 0.5 mm')
    >>> format_doubtful(203.2, 0.2291), format_doubtful(355, 12)
    ('203.20 ± 0.23 mm', '355 ± 12 mm')
    """
    value = f"{rounded(mm, _places_of(doubt_mm)):f}".replace("-", "−")
    return f"{value} {format_doubt(doubt_mm)}"


def format_doubt(doubt_mm: Number) -> str:
    """Write a ± for itself, with two significant digits at most (JCGM 100, 7.2.6).

    >>> format_doubt(0.1146), format_doubt(0.5), format_doubt(12)
    ('± 0.11 mm', '± 0.5 mm', '± 12 mm')
    """
    return f"± {rounded(doubt_mm, _places_of(doubt_mm)):f} mm"


def _places_of(doubt_mm: Number) -> int:
    places = max(0, 1 - math.floor(math.log10(doubt_mm)))
    ends_in_nought = f"{rounded(doubt_mm, places):f}".endswith("0")
    return places - 1 if places and ends_in_nought else places


def format_gauge(mm: Number) -> str:
    """Write a track gauge exactly: in feet and inches only where it is exactly that.

    Gauges compare exactly: 600 mm and 2 ft are two gauges, 9.6 mm apart.

    >>> format_gauge(600), format_gauge(Fraction("609.6")), format_gauge(762)
    ('600 mm', '2 ft (609.6 mm)', '2 ft 6 in (762 mm)')
    """
    exact_mm = exact(mm)
    metric = f"{plain_decimal(rounded(exact_mm, 6))} mm"
    inches = exact_mm / MM_PER_INCH
    nearest = Fraction(round(inches * 16), 16)
    return f"{_feet(nearest)} ({metric})" if _is_same(nearest, inches) else metric


def exact(number: Number) -> Fraction:
    """Turn any number into a fraction, a float by its shortest decimal spelling.

    >>> exact(0.1)
    Fraction(1, 10)
    """
    return Fraction(str(number)) if isinstance(number, float) else Fraction(number)


def plain_decimal(number: Decimal) -> str:
    """Write a decimal without exponent and without trailing zeros.

    >>> plain_decimal(Decimal("1066.800")), plain_decimal(Decimal("600"))
    ('1066.8', '600')
    """
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def rounded(number: Number, places: int) -> Decimal:
    """Round to ``places`` decimals, halves away from zero.

    >>> rounded(95.25, 1), rounded(-0.04, 1)
    (Decimal('95.3'), Decimal('0.0'))
    """
    scaled = abs(exact(number)) * 10**places
    whole = int(scaled + Fraction(1, 2))
    sign = -1 if exact(number) < 0 and whole else 1
    return Decimal(sign * whole).scaleb(-places)


def _is_same(left_inches: Fraction, right_inches: Fraction) -> bool:
    return abs(left_inches - right_inches) * MM_PER_INCH <= _SAME_MM


def _mixed(inches: Fraction) -> str:
    sign = "−" if inches < 0 else ""
    whole, part = divmod(abs(inches), 1)
    if not part:
        return f"{sign}{whole}"
    plain = f"{part.numerator}⁄{part.denominator}"
    if plain in _GLYPHS:
        return f"{sign}{whole or ''}{_GLYPHS[plain]}"
    return f"{sign}{whole}\N{NO-BREAK SPACE}{plain}" if whole else f"{sign}{plain}"


def _decimal_inches(inches: Fraction) -> str:
    thousandths = rounded(inches, 3)
    if _is_same(Fraction(thousandths), inches):
        return f"{plain_decimal(thousandths)} in".replace("-", "−")
    return f"≈ {thousandths} in".replace("-", "−")


def _feet(inches: Fraction) -> str:
    feet, rest = divmod(inches, 12)
    parts = [f"{feet} ft"] * bool(feet) + [f"{_mixed(rest)} in"] * bool(rest)
    return " ".join(parts) or "0 in"


def _decimals_for(resolution_mm: Fraction) -> int:
    """Count the decimals whose last place is no coarser than the resolution, six at most."""
    return next((places for places in range(6) if Fraction(1, 10**places) <= resolution_mm), 6)
