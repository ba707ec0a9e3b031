"""Lengths as a workshop writes them, read exactly or refused in words."""

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from catalog.reckoning.length_texts import (
    MM_PER_INCH,
    format_gauge,
    format_inches,
    format_mm,
)

__all__ = [
    "MM_PER_INCH",
    "UNITS",
    "Length",
    "LengthError",
    "format_gauge",
    "format_inches",
    "format_mm",
    "parse_length",
    "why_no_reading",
]

# The inch is 25.4 mm exactly since 1 July 1959 (NBS Circular 572, addendum).
UNITS = {
    "in": MM_PER_INCH,
    "ft": 12 * MM_PER_INCH,
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "thou": MM_PER_INCH / 1000,
}
_SPELLINGS = {
    "in": '" in ins inch inches',
    "ft": "' ft foot feet",
    "mm": "mm mms millimeter millimeters millimetre millimetres",
    "cm": "cm cms centimeter centimeters centimetre centimetres",
    "m": "m meter meters metre metres",
    "thou": "thou thous",
}
_UNIT_OF_WORD = {word: unit for unit, words in _SPELLINGS.items() for word in words.split()}

_SINGLE_PRIMES = "′‵’‘‛ʹʼ´`"
_DOUBLE_PRIMES = "″‶“”„‟ʺ˝〃"
_DASHES = "‐‑‒–—―−﹣-"
_INVISIBLE = "\u00ad\u200b\u200c\u200d\u2060\ufeff"
_REPLACED = str.maketrans(
    dict.fromkeys(_SINGLE_PRIMES, "'")
    | dict.fromkeys(_DOUBLE_PRIMES, '"')
    | dict.fromkeys(_DASHES, "-")
    | dict.fromkeys(_INVISIBLE, "")
    | dict.fromkeys("⁄∕", "/")
)

_MIXED = r"(?:[0-9]+(?:\s*-\s*|\s+))?[0-9]+\s*/\s*[0-9]+"
_NUMBER = rf"{_MIXED}|[0-9]+\.?[0-9]*|\.[0-9]+"
_QUANTITY = rf"({_NUMBER})\s*([a-z]+\.?|[\"'])?"
_LENGTH = re.compile(rf"{_QUANTITY}(?:[\s,-]*{_QUANTITY})?")

_LONGEST_TEXT = 80
_GREATEST_MM = 10**9
# A millionth of a millimeter: no tool of a workshop reads finer, and the record keeps no finer.
_FINEST_MM = Fraction(1, 10**6)
_NOT_ONE_LENGTH = (
    (r"^-", "“{0}” is below zero. A length is measured from zero up: type it without the minus."),
    (
        r"[0-9],[0-9]",
        "“{0}” has a comma in the number. Type a point for decimals, such as 3.75 in, and leave "
        "out commas between thousands, such as 1435 mm.",
    ),
    (
        r"[0-9\"'a-z.]\s*(?:x|×|\*|by|to)\s*[0-9.]",
        "“{0}” is more than one length. Type one length, such as 5 in, and the other in its own "
        "field.",
    ),
    (
        r"±|\+|~|≈|about|approx|circa|^c",
        "“{0}” says how sure the reading is as well. Type the length alone, such as 3 3/4 in, and "
        "give the ± in its own field.",
    ),
)


class LengthError(ValueError):
    """A text that is not one plain length; the message says what to type instead."""


@dataclass(frozen=True, slots=True)
class Length:
    """One length as typed: exact millimeters, the step it was read to, and its text."""

    mm: Fraction
    resolution_mm: Fraction
    text: str


@dataclass(frozen=True, slots=True)
class _Number:
    value: Fraction
    step: Fraction


def parse_length(text: str, *, default_unit: str | None = None) -> Length:
    """Read one length, such as ``3 3/4 in``, ``1'-2 1/2"`` or ``355 mm``.

    A text without a unit is refused unless ``default_unit`` states the unit of the field. The
    resolution is the finest denominator or decimal place that was typed, so ``8/16 in`` was read
    in sixteenths. 1 in = 25.4 mm exactly (NBS Circular 572, addendum of 1959).

    >>> parse_length("3 3/4 in").mm, parse_length("3.750 in").resolution_mm
    (Fraction(381, 4), Fraction(127, 5000))
    """
    if default_unit is not None and default_unit not in UNITS:
        raise ValueError(f"default_unit is one of {', '.join(UNITS)}, not {default_unit!r}")
    typed = text.strip()
    mm, resolution_mm = _read(_tidy(typed), typed=typed, default_unit=default_unit)
    if mm > _GREATEST_MM:
        raise LengthError(f"“{typed}” is longer than 1000 km. Check the number and its unit.")
    return Length(mm, resolution_mm, typed)


def parse_clearance(text: str, *, default_unit: str | None = None) -> Fraction:
    """Read a clearance in mm; below zero the two overlap, as a bush and its hole do.

    >>> parse_clearance("1/64 in"), parse_clearance("−0.05 mm")
    (Fraction(127, 320), Fraction(-1, 20))
    """
    typed = text.strip()
    if typed[:1] and typed[0] in _DASHES:
        return -parse_length(typed[1:], default_unit=default_unit).mm
    return parse_length(typed, default_unit=default_unit).mm


def why_no_reading(length: Length) -> str:
    """Say why nobody can have read ``length`` off a piece, or nothing where they can.

    >>> why_no_reading(parse_length("0 mm")), why_no_reading(parse_length("2 1/2 in"))
    ('“0 mm” is no size. Type what the tool shows, such as 3 3/4 in or 95 mm.', '')
    """
    if length.mm == 0:
        return f"“{length.text}” is no size. Type what the tool shows, such as 3 3/4 in or 95 mm."
    if min(length.mm, length.resolution_mm) < _FINEST_MM:
        return f"“{length.text}” is finer than any tool reads. Check the number and its unit."
    if length.mm >= _GREATEST_MM:
        return f"“{length.text}” is 1000 km. Check the number and its unit."
    return ""


def _tidy(typed: str) -> str:
    """Spell every typographic variant in plain lower-case letters, figures and marks."""
    if not typed:
        raise LengthError("Type a length with its unit, such as 3 3/4 in or 95 mm.")
    if len(typed) > _LONGEST_TEXT:
        raise LengthError("That is too long for one length. Type only it, such as 3 3/4 in.")
    # Compatibility forms would join 3¾ into 33/4, so fractions and raised figures come apart first.
    spaced = "".join(f" {c}" if _starts_fraction(c) else c for c in typed)
    spaced = re.sub(r"(?<=[0-9])(?=[⁰¹²³⁴-⁹])", " ", spaced).translate(_REPLACED)
    plain = unicodedata.normalize("NFKC", spaced).translate(_REPLACED).lower()
    joined = re.sub(r"\s*&\s*|(?<=[\s0-9])and\s+", " ", plain)
    return joined.replace("''", '"').strip().rstrip(".").strip()


def _starts_fraction(character: str) -> bool:
    return unicodedata.decomposition(character).startswith("<fraction>")


def _read(plain: str, *, typed: str, default_unit: str | None) -> tuple[Fraction, Fraction]:
    for pattern, sentence in _NOT_ONE_LENGTH:
        if re.search(pattern, plain):
            raise LengthError(sentence.format(typed))
    found = _LENGTH.fullmatch(plain)
    if found is None:
        raise LengthError(
            f"“{typed}” is not a length. Type a number and its unit, such as 3 3/4 in, 1 ft 2 in "
            "or 95 mm."
        )
    first, first_unit, second, second_unit = found.groups()
    if second is not None:
        units = (_unit(first_unit, typed), _unit(second_unit, typed) or _inches_by(default_unit))
        return _feet_and_inches(_number(first, typed), _number(second, typed), units, typed)
    unit = _unit(first_unit, typed) or default_unit
    number = _number(first, typed)
    if unit is None:
        raise LengthError(f"“{typed}” has no unit. Type {first} in, {first} ft or {first} mm.")
    return number.value * UNITS[unit], number.step * UNITS[unit]


def _unit(word: str | None, typed: str) -> str | None:
    if word is None:
        return None
    if word.rstrip(".") not in _UNIT_OF_WORD:
        raise LengthError(
            f"“{typed}” has the unit “{word}”, which is not known here. Type in, ft, mm, cm, m "
            "or thou."
        )
    return _UNIT_OF_WORD[word.rstrip(".")]


def _inches_by(default_unit: str | None) -> str | None:
    """Read a bare number after feet as inches in a field of inches or feet, else ask."""
    return "in" if default_unit in ("in", "ft") else None


def _feet_and_inches(
    feet: _Number, inches: _Number, units: tuple[str | None, str | None], typed: str
) -> tuple[Fraction, Fraction]:
    if units == ("ft", None):
        raise LengthError(f"“{typed}” has no unit after the feet. Type it as {typed} in.")
    if units != ("ft", "in"):
        raise LengthError(
            f"“{typed}” has two numbers that do not make one length. Type a fraction as 3 3/4 in "
            "with the unit last, feet and inches as 1 ft 2 in, and a long number without spaces."
        )
    if feet.step != 1:
        raise LengthError(
            f"“{typed}” has part of a foot and inches too. Type whole feet before the inches, "
            "such as 1 ft 6 in, or feet alone, such as 1.5 ft."
        )
    if inches.value >= 12:
        total = feet.value * 12 + inches.value
        raise LengthError(
            f"“{typed}” has 12 inches or more after the feet. Type less than 12 inches there, "
            f"or inches alone, such as {format_inches(total * MM_PER_INCH)}."
        )
    return feet.value * UNITS["ft"] + inches.value * UNITS["in"], inches.step * UNITS["in"]


def _number(digits: str, typed: str) -> _Number:
    if "/" in digits:
        *whole, top, bottom = map(int, re.findall("[0-9]+", digits))
        return _mixed_number(sum(whole), top, bottom, typed)
    places = len(digits.partition(".")[2])
    return _Number(Fraction(digits), Fraction(1, 10**places))


def _mixed_number(whole: int, top: int, bottom: int, typed: str) -> _Number:
    if bottom == 0:
        raise LengthError(
            f"“{typed}” has a fraction over 0. Type one with a figure below it, such as 3/4 in."
        )
    if top >= bottom:
        raise LengthError(
            f"“{typed}” has the fraction {top}/{bottom}, which is not less than one. Type the "
            "whole number first and then the fraction, such as 3 3/4 in."
        )
    return _Number(whole + Fraction(top, bottom), Fraction(1, bottom))
