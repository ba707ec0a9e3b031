"""What the patent markings among the marks of a part say, and which recorded patents agree."""

from dataclasses import dataclass

from catalog.models import Part, PartMark, Patent
from catalog.queries.patents import numbered_patents, those_agreeing
from catalog.reckoning.patents import Marking, read_marking


@dataclass(frozen=True, slots=True)
class MarkRead:
    """A mark that speaks of a patent: what can be read from it, and who agrees."""

    mark: PartMark
    marking: Marking
    agreeing: tuple[Patent, ...]


def marks_read(part: Part) -> tuple[MarkRead, ...]:
    """Return the patent markings among the marks of a part; a mark of any other kind is left out.

    Patents are looked up only where there is such a marking.
    """
    read = [(mark, read_marking(mark.text)) for mark in part.marks.all() if mark.text.strip()]
    speaking = [(mark, marking) for mark, marking in read if marking.says_patent]
    numbered = numbered_patents() if speaking else []
    return tuple(
        MarkRead(mark, marking, tuple(those_agreeing(marking, numbered)))
        for mark, marking in speaking
    )
