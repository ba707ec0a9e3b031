"""Wheel arrangements in two notations, and track gauges that compare exactly."""

import re
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from string import ascii_uppercase

WHYTE = re.compile(r"(?P<units>\d+(?:-\d+)+(?:\+\d+(?:-\d+)+)*) *(?:[A-Z]{0,3}T)?")
UIC_AXLES = re.compile(r"(?P<carrying>[1-9])|(?P<driving>[A-Z])o?")

# A single carrying axle may be held rigidly in the frame beside one or two driving
# axles; beside more, and in pairs, it is in a truck (common practice, no source).
MOST_DRIVING_BESIDE_RIGID = 2


class NotationError(ValueError):
    """A wheel arrangement or gauge that cannot be read, with the reason in words."""


@dataclass(frozen=True, slots=True)
class Gauge:
    """A track gauge under its usual name, in exact millimeters."""

    name: str
    mm: Fraction
    aliases: tuple[str, ...] = ()


INCH = Fraction(254, 10)

# Exact from 1 in = 25.4 mm. That lines of 1 ft 3 in, 1 ft 11 1/2 in, 2 ft 3 in, 2 ft 4 in,
# 2 ft 9 in, 750 mm, 760 mm and 891 mm were built is from memory.
GAUGES = (
    Gauge("1 ft 3 in", 15 * INCH, ("15 in",)),
    Gauge("1 ft 6 in", 18 * INCH, ("18 in",)),
    Gauge("1 ft 11 1/2 in", Fraction(47, 2) * INCH, ("23 1/2 in",)),
    Gauge("600 mm", Fraction(600), ("60 cm",)),
    Gauge("2 ft", 24 * INCH, ("24 in",)),
    Gauge("2 ft 2 in", 26 * INCH, ("26 in",)),
    Gauge("2 ft 3 in", 27 * INCH, ("27 in",)),
    Gauge("2 ft 4 in", 28 * INCH, ("28 in",)),
    Gauge("750 mm", Fraction(750), ("75 cm",)),
    Gauge("760 mm", Fraction(760), ("76 cm",)),
    Gauge("2 ft 6 in", 30 * INCH, ("30 in",)),
    Gauge("2 ft 9 in", 33 * INCH, ("33 in",)),
    Gauge("891 mm", Fraction(891), ()),
    Gauge("3 ft", 36 * INCH, ("36 in",)),
    Gauge("meter", Fraction(1000), ("metre", "1 m", "1000 mm")),
    Gauge("3 ft 6 in", 42 * INCH, ("42 in",)),
    Gauge("4 ft 8 1/2 in", Fraction(113, 2) * INCH, ("standard", "56 1/2 in")),
)


def whyte_to_uic(whyte: str) -> tuple[str, ...]:
    """Return the UIC arrangements that a Whyte arrangement may stand for.

    Whyte counts wheels and does not tell a truck from an axle held in the frame, so
    one may stand for several; those with trucks come first. Letters for tanks after
    the figures are left out. Articulated engines are given as driving groups.

    >>> whyte_to_uic("2-4-0"), whyte_to_uic("2-8-2"), whyte_to_uic("0-4-0T")
    (("1'B", '1B'), ("1'D1'",), ('B',))
    >>> whyte_to_uic("2-6-0+0-6-2")
    ("1'C+C1'",)
    """
    found = WHYTE.fullmatch(whyte.strip().upper().replace("–", "-"))
    if found is None:
        raise NotationError(
            f"“{whyte}” is not a wheel arrangement in Whyte notation, such as 0-4-0 or 2-6-2T."
        )
    units = [_unit_to_uic(unit, whyte) for unit in found["units"].split("+")]
    return tuple("+".join(choice) for choice in product(*units))


def uic_to_whyte(uic: str) -> str:
    """Return the one Whyte arrangement of a UIC arrangement.

    Only the axles count: primes and brackets (trucks), the small o (axles driven
    one by one) and what follows a space (steam, cylinders, tank) are left out.

    >>> uic_to_whyte("1'C1'"), uic_to_whyte("B n2t"), uic_to_whyte("(1'C)C1'")
    ('2-6-2', '0-4-0', '2-6-6-2')
    """
    words = re.sub("[’′‘]", "'", uic).split()
    axles = re.sub("['()]", "", words[0]) if words else ""
    return "+".join(_unit_to_whyte(unit, uic) for unit in axles.split("+"))


def gauge_named(name: str) -> Gauge:
    """Return the gauge of this name.

    >>> gauge_named("2 ft 6 in").mm, gauge_named("metre").mm
    (Fraction(762, 1), Fraction(1000, 1))
    """
    key = " ".join(name.lower().strip().removesuffix("gauge").split())
    for gauge in GAUGES:
        if key in (gauge.name, *gauge.aliases):
            return gauge
    known = ", ".join(gauge.name for gauge in GAUGES)
    raise NotationError(f"“{name}” is not a gauge known by name; the names are {known}.")


def gauge_of(mm: Fraction | int) -> Gauge | None:
    """Return the gauge of exactly this many millimeters, if it has a name.

    2 ft and 600 mm are different gauges; nothing is rounded.

    >>> gauge_of(Fraction("609.6")).name, gauge_of(600).name, gauge_of(601)
    ('2 ft', '600 mm', None)
    """
    return next((gauge for gauge in GAUGES if gauge.mm == mm), None)


def _unit_to_uic(unit: str, whyte: str) -> list[str]:
    """Return the arrangements of one frame, those with trucks first."""
    wheels = [int(count) for count in unit.split("-")]
    axles = [count // 2 for count in wheels]
    is_whole = all(count % 2 == 0 for count in wheels) and len(wheels) >= 3
    if not is_whole or not all(axles[1:-1]) or max(axles) > len(ascii_uppercase):
        raise NotationError(
            f"“{whyte}” cannot be: wheels come in pairs, written leading, driving and trailing, "
            "such as 0-4-0 or 2-6-6-2."
        )
    driving = axles[1:-1]
    leading = _carrying(axles[0], beside=driving[0])
    trailing = _carrying(axles[-1], beside=driving[-1])
    letters = "".join(ascii_uppercase[count - 1] for count in driving)
    return [f"{first}{letters}{last}" for first, last in product(leading, trailing)]


def _carrying(axles: int, *, beside: int) -> list[str]:
    """Return the ways of writing carrying axles beside so many driving axles."""
    if axles == 0:
        return [""]
    if axles == 1 and beside <= MOST_DRIVING_BESIDE_RIGID:
        return ["1'", "1"]
    return [f"{axles}'"]


def _unit_to_whyte(axles: str, uic: str) -> str:
    """Return the wheels of one frame, with noughts where nothing is carried."""
    wheels: list[int] = []
    kinds = ""
    for found in UIC_AXLES.finditer(axles):
        is_driving = found["driving"] is not None
        count = (
            ascii_uppercase.index(found["driving"]) + 1 if is_driving else int(found["carrying"])
        )
        wheels.append(2 * count)
        kinds += "d" if is_driving else "c"
    if not re.fullmatch("c?d+c?", kinds) or UIC_AXLES.sub("", axles):
        raise NotationError(
            f"“{uic}” is not a wheel arrangement in UIC notation, such as B, 1'C or 2'C1'."
        )
    leading = [] if kinds[0] == "c" else [0]
    trailing = [] if kinds[-1] == "c" else [0]
    return "-".join(str(count) for count in leading + wheels + trailing)
