"""Numbered notes: each source has one number on a sheet, given when it is first named."""

from collections.abc import Iterable


class SourceNotes:
    """Count sources in the order in which a reader meets them."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}

    def numbers(self, sources: Iterable[str]) -> tuple[int, ...]:
        """Return the numbers of ``sources``, new ones counted on."""
        return tuple(self._numbers.setdefault(source, len(self._numbers) + 1) for source in sources)

    @property
    def sources(self) -> tuple[str, ...]:
        """Return all sources in the order of their numbers."""
        return tuple(self._numbers)
