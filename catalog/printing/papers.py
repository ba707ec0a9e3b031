"""The two sizes of paper that groups have in their printers."""

from enum import StrEnum


class Paper(StrEnum):
    """A size as style sheets name it."""

    A4 = "A4"
    LETTER = "letter"


def paper_named(name: str) -> Paper:
    """Return the paper of this name; A4 where an address says nothing, or nonsense."""
    by_name = {paper.value.lower(): paper for paper in Paper}
    return by_name.get(name.lower(), Paper.A4)
