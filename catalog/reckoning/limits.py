"""The least and the greatest value that a specification permits."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """Limits in millimeters; a side that is ``None`` is open."""

    lower: float | None
    upper: float | None
