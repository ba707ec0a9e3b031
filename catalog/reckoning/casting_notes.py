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


def allowance_note(
    material: str, surviving: Decimal | Fraction | int = 1, *, piece: str = ""
) -> str:
    """Say what contraction means for a casting from a pattern of this material.

    A wooden pattern does not say what is cast from it; then the name of the ``piece`` may, as
    that of a bearing brass does. Where neither names a metal gray iron is taken, and the note
    says so. The allowance is that of ``catalog.reckoning.shrinkage``, with its sources.

    >>> allowance_note("wood").partition(" (")[0]
    'A pattern is larger than its casting by 1/8 in a foot for gray iron'
    >>> allowance_note("wood", piece="bearing brass").partition(" (")[0]
    'A pattern is larger than its casting by 3/16 in a foot for brass'
    """
    of_pattern = metal_named(material)
    metal = of_pattern or metal_named(piece) or Metal.GRAY_IRON
    per_foot = CONTRACTIONS[metal].usual * 12
    amount = f"{per_foot} in a foot for {metal.value}"
    if of_pattern is None and surviving == 1:
        return (
            f"A pattern is larger than its casting by {amount} "
            "(check which metal this one was made for)."
        )
    broken = "" if surviving == 1 else " What is missing of it must be added to the pattern."
    return (
        f"A casting taken from it comes out smaller by about {amount}: build it up first, or "
        f"check that the smaller size will do.{broken}"
    )
