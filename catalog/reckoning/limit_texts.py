"""Limits written the way a letter asks for a size: nominal, tolerance, and inches."""

from fractions import Fraction

from catalog.reckoning.length_texts import (
    Number,
    exact,
    format_doubtful,
    format_inches,
    plain_decimal,
    rounded,
)


def toleranced(lower: Number | None, upper: Number | None) -> str:
    """Write limits in millimeters as a size with its tolerance, inches in brackets.

    Limits with one open end keep it, to the thousandth of a millimeter. A tolerance is rounded
    as an uncertainty is, to two significant digits.

    >>> toleranced(Fraction("63.5"), Fraction("64.5")), toleranced(None, 70)
    ('64.0 ± 0.5 mm (≈ 2.520 in)', 'at most 70 mm (≈ 2.756 in)')
    """
    if lower is None and upper is None:
        return ""
    if lower is None or upper is None:
        end = "at most" if lower is None else "at least"
        return f"{end} {_both_units(exact(_known(lower, upper)))}"
    least, greatest = exact(lower), exact(upper)
    middle, half = (least + greatest) / 2, (greatest - least) / 2
    if not half:
        return _both_units(middle)
    return f"{format_doubtful(middle, half)} ({format_inches(middle)})"


def _known(lower: Number | None, upper: Number | None) -> Number:
    return upper if lower is None else lower  # type: ignore[return-value]


def _both_units(mm: Fraction) -> str:
    return f"{_plain(mm)} mm ({format_inches(mm)})"


def _plain(mm: Fraction) -> str:
    return plain_decimal(rounded(mm, 3))
