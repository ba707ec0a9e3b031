"""What to mind when a new casting is taken from a pattern, or from an old casting used as one."""

import re
from decimal import Decimal
from fractions import Fraction

from catalog.reckoning.shrinkage import CONTRACTIONS, Metal

# The words by which people name what a piece is made of; iron stands last, since it is the
# usual metal of castings (common practice, no source).
METALS = (
    (r"alumin", Metal.ALUMINUM),
    (r"brass", Metal.BRASS),
    (r"bronze|gun ?metal", Metal.BRONZE),
    (r"steel", Metal.STEEL),
    (r"iron", Metal.GRAY_IRON),
)


def metal_named(material: str) -> Metal | None:
    """Return the metal that the words for a material name.

    Wrought iron is not cast, but a casting after it would be of iron.

    >>> metal_named("cast iron"), metal_named("oak")
    (<Metal.GRAY_IRON: 'gray iron'>, None)
    """
    named = (metal for word, metal in METALS if re.search(word, material, re.IGNORECASE))
    return next(named, None)


def allowance_note(material: str, surviving: Decimal | Fraction | int = 1) -> str:
    """Say what contraction means for a casting from a pattern of this material.

    Where no metal is named gray iron is taken, and the note says so. The allowance is that of
    ``catalog.reckoning.shrinkage``, with its sources.

    >>> allowance_note("wood").partition(" (")[0]
    'A pattern is larger than its casting by 1/8 in a foot for gray iron'
    """
    metal = metal_named(material)
    per_foot = CONTRACTIONS[metal or Metal.GRAY_IRON].usual * 12
    amount = f"{per_foot} in a foot for {(metal or Metal.GRAY_IRON).value}"
    if metal is None and surviving == 1:
        return (
            f"A pattern is larger than its casting by {amount} "
            "(check which metal this one was made for)."
        )
    broken = "" if surviving == 1 else " What is missing of it must be added to the pattern."
    return (
        f"A casting taken from it comes out smaller by about {amount}: build it up first, or "
        f"check that the smaller size will do.{broken}"
    )
