"""The contraction of castings: how much larger a pattern must be than what it gives."""

import math
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType

# What is allowed on each foot of length. Shop Practice describes the rules themselves,
# 24 1/4 in of boxwood marked as 24 in for iron and 24 3/8 in for brass; the list of
# Sellens is known here only as others quote it; Dooley gives lower figures for iron and
# steel, and higher ones for light metals.
_SHOP_PRACTICE = "Shop Practice, volume 2, Shrinkage Rules"
_SELLENS = "A. Sellens, Stanley Folding Rules"
_DOOLEY = "W. H. Dooley, Applied Science for Metal Workers, section 426"


class ShrinkageError(ValueError):
    """Say in words why a size cannot be turned into a pattern or a casting."""


class Metal(StrEnum):
    """What is poured."""

    GRAY_IRON = "gray iron"
    STEEL = "steel"
    BRASS = "brass"
    BRONZE = "bronze"
    ALUMINUM = "aluminum"


@dataclass(frozen=True, slots=True)
class Contraction:
    """The allowance for one metal as a share of the casting's length, with its sources.

    ``least`` and ``greatest`` are what published lists give; they differ because a heavy
    or cored casting contracts less than a slender one of the same metal.
    """

    usual: Fraction
    least: Fraction
    greatest: Fraction
    source: str


def _per_foot(usual: str, least: str, greatest: str, source: str) -> Contraction:
    shares = [Fraction(inches) / 12 for inches in (usual, least, greatest)]
    return Contraction(shares[0], shares[1], shares[2], source)


CONTRACTIONS = MappingProxyType(
    {
        Metal.GRAY_IRON: _per_foot("1/8", "3/32", "1/8", f"{_SHOP_PRACTICE}; least: {_DOOLEY}"),
        Metal.STEEL: _per_foot("1/4", "3/16", "1/4", f"{_SELLENS}; least: {_DOOLEY}"),
        Metal.BRASS: _per_foot("3/16", "3/16", "7/32", f"{_SHOP_PRACTICE}; greatest: {_DOOLEY}"),
        Metal.BRONZE: _per_foot("3/16", "5/32", "3/16", f"common practice; least: {_DOOLEY}"),
        Metal.ALUMINUM: _per_foot("3/16", "3/16", "7/32", f"{_SELLENS}; greatest: {_DOOLEY}"),
    }
)


def pattern_dimension(casting_mm: float, metal: Metal) -> float:
    """Return the size of a pattern that gives a casting of ``casting_mm``.

    The contraction is taken as free and even in all directions. What is later machined
    off, and the taper that lets a pattern leave the sand, come on top.

    >>> round(pattern_dimension(609.6, Metal.GRAY_IRON) / 25.4, 3)
    24.25
    """
    return _checked(casting_mm) * float(1 + CONTRACTIONS[metal].usual)


def casting_from_pattern(pattern_mm: float, metal: Metal) -> float:
    """Return the size of the casting that a pattern of ``pattern_mm`` gives.

    The same holds for a broken casting that is molded as a pattern: the new one comes
    out smaller by the contraction, unless the old one is built up first.

    >>> round(casting_from_pattern(100.0, Metal.GRAY_IRON), 2)
    98.97
    """
    return _checked(pattern_mm) / float(1 + CONTRACTIONS[metal].usual)


def casting_range(pattern_mm: float, metal: Metal) -> tuple[float, float]:
    """Return the least and greatest casting that a pattern may give.

    >>> [round(size, 2) for size in casting_range(100.0, Metal.STEEL)]
    [97.96, 98.46]
    """
    allowance, size = CONTRACTIONS[metal], _checked(pattern_mm)
    return size / float(1 + allowance.greatest), size / float(1 + allowance.least)


def shrink_rule_reading(casting_mm: float, rule: Metal) -> float:
    """Return the true length of what a shrink rule for ``rule`` calls ``casting_mm``.

    A size read off an old pattern with the wrong rule is thereby put right.

    >>> round(shrink_rule_reading(304.8, Metal.BRASS) / 25.4, 4)
    12.1875
    """
    return pattern_dimension(casting_mm, rule)


def _checked(size_mm: float) -> float:
    if not (math.isfinite(size_mm) and size_mm > 0.0):
        raise ShrinkageError(f"A size of {size_mm:g} mm cannot be cast; give one above zero.")
    return size_mm
