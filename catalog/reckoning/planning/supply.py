"""Say for how many vehicles a supply is enough, counting shares of pieces."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import floor


@dataclass(frozen=True, slots=True)
class Enough:
    """Hold for how many vehicles a supply is enough, whole and in parts.

    ``shares`` gives for each component how many vehicles' worth there is; ``limiting`` lists the
    components of which there is least.

    >>> Enough(1, Fraction(3, 2), {"casting": Fraction(3, 2)}, ("casting",)).sentence()
    'enough for 1 complete, and 3/2 in parts'
    """

    complete: int
    in_parts: Fraction
    shares: Mapping[str, Fraction]
    limiting: tuple[str, ...]

    def sentence(self) -> str:
        """Say for how many vehicles there is enough."""
        return f"enough for {self.complete} complete, and {self.in_parts} in parts"


def enough_for(
    requirements: Mapping[str, int], supply: Mapping[str, Fraction | Decimal | int]
) -> Enough:
    """Return for how many vehicles of one class a supply is enough.

    ``requirements`` counts the pieces of each component on one vehicle. A broken piece is
    supplied as the share of it that survives. Shares say how far a supply goes and not that
    broken pieces can be joined (common practice, no source).

    >>> enough = enough_for({"casting": 3, "spring": 8}, {"casting": Fraction(9, 2), "spring": 40})
    >>> enough.complete, enough.shares["casting"], enough.limiting
    (1, Fraction(3, 2), ('casting',))
    """
    shares = {
        component: Fraction(supply.get(component, 0)) / count
        for component, count in sorted(requirements.items())
        if count > 0
    }
    least = min(shares.values(), default=Fraction(0))
    limiting = tuple(component for component, share in shares.items() if share == least)
    return Enough(floor(least), least, shares, limiting)
