"""Limits as drawings write them: a size with its tolerances, or a range, read exactly."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from catalog.reckoning.lengths import LengthError, parse_length

# A tolerance begins after the unit of the size, so that the dash of 3-3/4 in begins none.
_SIZE = r"(?P<size>.*?(?:[a-z]\.?|[\"'”“’″′]))"
_NUMBER = r"(?:(?:[0-9]+[\s-]+)?[0-9]+\s*[/⁄]\s*[0-9]+|[0-9]*\s*[¼½¾⅛⅜⅝⅞]|[0-9]*\.?[0-9]+)"
_STEP = r"\s*(?P<{}>" + _NUMBER + r"\s*(?:[a-z]+\.?|[\"”″])?)"
_MINUS = "[-−–]"
_BOTH = re.compile(rf"{_SIZE}\s*(?:±|\+\s*/?\s*{_MINUS}){_STEP.format('both')}")
_UP_DOWN = re.compile(rf"{_SIZE}\s*\+{_STEP.format('up')}\s*[,/]?\s*{_MINUS}{_STEP.format('down')}")
_DOWN_UP = re.compile(rf"{_SIZE}\s*{_MINUS}{_STEP.format('down')}\s*[,/]?\s*\+{_STEP.format('up')}")
_BARE = re.compile(rf"(?P<bare>{_NUMBER})\s*±{_STEP.format('both')}")
_RANGE = re.compile(r"(?P<least>.+?)\s*(?:\bto\b|–|…|\.\.\.?)\s*(?P<greatest>.+)")
_UNIT = re.compile(r"[a-z]+\.?$|[\"'”“’″′]+$")


@dataclass(frozen=True, slots=True)
class SizeLimits:
    """The least and the greatest permissible size, in exact millimeters."""

    lower_mm: Fraction
    upper_mm: Fraction


def parse_limits(text: str) -> SizeLimits:
    """Read the limits of one size, as written on a drawing.

    Assume that a tolerance without a unit has the unit of its size, as on drawings (common
    practice, no source). A tolerance of nothing may be written ``0``.

    >>> parse_limits("2 1/2 in +0 -1/16")
    SizeLimits(lower_mm=Fraction(4953, 80), upper_mm=Fraction(127, 2))
    >>> parse_limits("63.5 ± 0.2 mm") == parse_limits("63.3 to 63.7 mm")
    True
    """
    typed = text.strip()
    plain = typed.lower()
    for pattern, read in _READERS:
        if found := pattern.fullmatch(plain):
            limits = read(found)
            if limits.upper_mm < limits.lower_mm:
                raise LengthError(f"“{typed}” has its upper limit below its lower limit.")
            return limits
    raise LengthError(
        f"“{typed}” is not a size with limits. Write 2 1/2 in +0 -1/16, 63.5 mm ± 0.2 or "
        "63.3 to 63.7 mm."
    )


def _both_ways(found: re.Match[str]) -> SizeLimits:
    size, step = parse_length(found["size"]).mm, _step(found["both"], found["size"])
    return SizeLimits(size - step, size + step)


def _up_and_down(found: re.Match[str]) -> SizeLimits:
    size = parse_length(found["size"]).mm
    up, down = _step(found["up"], found["size"]), _step(found["down"], found["size"])
    return SizeLimits(size - down, size + up)


def _from_to(found: re.Match[str]) -> SizeLimits:
    greatest = parse_length(found["greatest"]).mm
    return SizeLimits(_step(found["least"], found["greatest"]), greatest)


def _bare_size(found: re.Match[str]) -> SizeLimits:
    unit = _unit_of(found["both"])
    size = parse_length(f"{found['bare']} {unit}").mm
    step = parse_length(found["both"]).mm
    return SizeLimits(size - step, size + step)


def _step(text: str, size: str) -> Fraction:
    return parse_length(text if _UNIT.search(text.strip()) else f"{text} {_unit_of(size)}").mm


def _unit_of(size: str) -> str:
    found = _UNIT.search(size.strip())
    return found[0] if found else ""


_READERS: tuple[tuple[re.Pattern[str], Callable[[re.Match[str]], SizeLimits]], ...] = (
    (_BOTH, _both_ways),
    (_UP_DOWN, _up_and_down),
    (_DOWN_UP, _up_and_down),
    (_BARE, _bare_size),
    (_RANGE, _from_to),
)
