"""What the marks on a piece say for each thing that it may be."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db.models.functions import Length

from catalog.models import KnownMark, Part, PartMark
from catalog.queries.identity_hypotheses import Kinds
from catalog.reckoning.identity import MarkEvidence
from catalog.reckoning.marks import NOTHING_LEGIBLE, MarkMatch, match_mark, says_nothing

# A mark seen on another piece may be its owner's or its batch's, so it counts for no more than
# this, however rare (common practice, no source).
SEEN_ELSEWHERE_AT_MOST = 20.0
# Marks of other pieces are read in Python, so only so many of about the same length are.
READ_AT_MOST = 1500
LENGTH_APART = 3

Row = tuple[str, int, int | None]
Match = tuple[MarkMatch, int, int | None, str]


@dataclass(frozen=True, slots=True)
class MarksRead:
    """The evidence of the marks, in words whence, and what they could not say."""

    evidence: tuple[MarkEvidence, ...]
    remarks: tuple[str, ...]


def marks_of(part: Part, kinds: Kinds) -> MarksRead:
    """Weigh every mark on ``part`` against known marks and those of identified parts."""
    known = list(KnownMark.objects.values_list("text", "component", "vehicle_class"))
    marks = list(part.marks.all())
    seen = _seen_elsewhere(part, marks)
    evidence, remarks = [], []
    for mark in marks:
        matches = [*_known(mark, known), *_elsewhere(mark, seen)]
        factors = _factors(matches, kinds)
        if says_nothing(mark.text):
            remarks.append(f"Mark “{mark.text}”: {NOTHING_LEGIBLE}")
        elif factors:
            evidence.append(MarkEvidence(_statement(mark, matches), factors))
        else:
            remarks.append(f"Mark “{mark.text}”: no mark in the catalog is like it.")
    return MarksRead(tuple(evidence), tuple(remarks))


def _known(mark: PartMark, rows: Iterable[Row]) -> list[Match]:
    return [
        (match_mark(mark.text, text), component, kind, f"the known mark “{text}”")
        for text, component, kind in rows
    ]


def _seen_elsewhere(part: Part, marks: list[PartMark]) -> list[Row]:
    """Return the marks of about these lengths on other parts that somebody has identified."""
    if not marks:
        return []
    sizes = [len(mark.text) for mark in marks]
    rows = (
        PartMark.objects.exclude(part=part)
        .filter(part__component__isnull=False, part__withdrawn_at__isnull=True)
        .exclude(part__identification_status=Part.Standing.DISPUTED)
        .annotate(size=Length("text"))
        .filter(size__range=(min(sizes) - LENGTH_APART, max(sizes) + LENGTH_APART))
        .order_by("text", "part__component", "part__vehicle_class")
    )
    seen = rows.values_list("text", "part__component", "part__vehicle_class").distinct()
    return list(seen[: READ_AT_MOST * len(marks)])


def _elsewhere(mark: PartMark, seen: Iterable[Row]) -> list[Match]:
    """Return how the mark agrees with those on other parts that are of about its length."""
    near = [row for row in seen if abs(len(row[0]) - len(mark.text)) <= LENGTH_APART]
    return [
        (match_mark(mark.text, text), component, kind, f"“{text}” on another piece")
        for text, component, kind in near[:READ_AT_MOST]
    ]


def _weight(match: MarkMatch, whence: str) -> float:
    is_known = whence.startswith("the known mark")
    return match.ratio if is_known else min(match.ratio, SEEN_ELSEWHERE_AT_MOST)


def _factors(matches: Iterable[Match], kinds: Kinds) -> Mapping[str, float]:
    """Return the best weight for each hypothesis that a mark speaks for.

    A mark that does not agree speaks against nothing: a component may bear many marks.
    """
    factors: dict[str, float] = {}
    for match, component, kind, whence in matches:
        weight = _weight(match, whence)
        if weight <= 1.0:
            continue
        for key, one in kinds.by_key.items():
            of_class = one.vehicle_class.pk if one.vehicle_class else None
            if one.component.pk == component and kind in (None, of_class):
                factors[key] = max(weight, factors.get(key, 0.0))
    return factors


def _statement(mark: PartMark, matches: Iterable[Match]) -> str:
    best = max(matches, key=lambda one: _weight(one[0], one[3]))
    return f"mark “{mark.text}”, read against {best[3]}"
