"""Say what the best use of the pieces in hand is, and how far it is proven."""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Level:
    """Hold what one level of the plan reached, and what no plan could exceed.

    ``vehicles`` is how many are complete, where the value is not that but the sum of weights.

    >>> Level("complete vehicles", 9, 10, False, 2.0).gap
    0.1
    """

    name: str
    value: float
    bound: float
    is_proven: bool
    seconds: float
    vehicles: int | None = None

    @property
    def gap(self) -> float:
        """Return how much of the bound is still in doubt, from 0 to 1."""
        return (
            0.0 if self.is_proven or not self.bound else abs(self.bound - self.value) / self.bound
        )

    def sentence(self) -> str:
        """Say the value, and the bound where the proof is not complete.

        >>> Level("complete vehicles", 9, 10, False, 2.0).sentence()
        '9 complete vehicles, at most 10'
        >>> Level("hours of making and repair", 12, 10, False, 2.0).sentence()
        '12 hours of making and repair, at least 10'
        >>> Level("complete vehicles", 8, 9, False, 2.0, vehicles=2).sentence()
        '2 complete vehicles, worth 8 by their weights, at most 9'
        """
        count = self.value if self.vehicles is None else self.vehicles
        return f"{count:g} {self.name}{self.worth}{self.doubt}"

    @property
    def worth(self) -> str:
        """Return what weights make of the count, for then the bound is of weights too."""
        return "" if self.vehicles is None else f", worth {self.value:g} by their weights"

    @property
    def doubt(self) -> str:
        """Return the bound where the proof is not complete."""
        side = "at most" if self.bound > self.value else "at least"
        return "" if self.is_proven else f", {side} {self.bound:g}"


@dataclass(frozen=True, slots=True)
class BestUse:
    """Hold a plan: the piece at each place it fills, and what it amounts to.

    ``assignments`` leaves out what was fixed beforehand; ``unfilled`` lists every place that
    stays empty, essential or not.

    >>> BestUse({}, ("31",), (Level("complete vehicles", 1, 1, True, 0.1),), ()).sentence()
    '1 complete'
    """

    assignments: Mapping[str, str]
    complete: tuple[str, ...]
    levels: tuple[Level, ...]
    unfilled: tuple[str, ...]

    @property
    def is_proven(self) -> bool:
        """Say whether no plan could do better at any level."""
        return all(level.is_proven for level in self.levels)

    def sentence(self) -> str:
        """Say how many vehicles are complete, and how many could be at the most."""
        level = self.levels[0]
        return f"{len(self.complete)} complete{level.worth}{level.doubt}"
