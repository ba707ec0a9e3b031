"""What was said to be in an accession beside what was cataloged from it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from django.db.models import F, Max, Sum

from catalog.models import Accession, Component, Part, StatedLine
from catalog.reckoning.stated_lines import (
    StatedWords,
    agrees,
    difference_words,
    read_stated_line,
    stated_words,
)


@dataclass(frozen=True, slots=True)
class Pieces:
    """Pieces of one component, as a count and by how much of them survives."""

    count: int = 0
    surviving: Fraction = Fraction(0)

    def __add__(self, other: "Pieces") -> "Pieces":
        return Pieces(self.count + other.count, self.surviving + other.surviving)


@dataclass(frozen=True, slots=True)
class LineCheck:
    """One stated line, and in words how what was cataloged agrees with it."""

    line: StatedLine
    cataloged: int
    words: str
    agrees: bool

    @property
    def is_waiting(self) -> bool:
        """Say whether the line differs and nobody has settled it."""
        return not self.agrees and not self.line.settled


@dataclass(frozen=True, slots=True)
class Unmentioned:
    """Pieces that were cataloged though no stated line mentions them."""

    component: Component | None
    count: int

    @property
    def words(self) -> str:
        pieces = "1 piece" if self.count == 1 else f"{self.count} pieces"
        return f"{self.component}: {pieces}" if self.component else f"{pieces} not identified yet"


@dataclass(frozen=True, slots=True)
class Reconciliation:
    """An accession's lines, each checked, and what none of them mentions."""

    accession: Accession
    lines: tuple[LineCheck, ...]
    unmentioned: tuple[Unmentioned, ...]

    @property
    def waiting(self) -> tuple[LineCheck, ...]:
        return tuple(check for check in self.lines if check.is_waiting)


# By component, None standing for pieces that nobody has identified.
Found = dict[int | None, Pieces]


def reconcile(accession: Accession) -> Reconciliation:
    """Compare the stated lines of ``accession`` with what was cataloged from it."""
    return reconcile_all([accession])[0]


def reconcile_all(accessions: Iterable[Accession]) -> list[Reconciliation]:
    """Compare many accessions in three queries, however many there are."""
    accessions = list(accessions)
    components = Component.objects.in_bulk()
    lines: dict[int, list[StatedLine]] = {}
    for line in StatedLine.objects.filter(accession__in=accessions):
        lines.setdefault(line.accession_id, []).append(line)
    found = _found(accessions)
    return [
        _compare(accession, lines.get(accession.pk, []), found.get(accession.pk, {}), components)
        for accession in accessions
    ]


def waiting_lines() -> list[LineCheck]:
    """Return the lines of all accessions that differ from what was cataloged, unsettled."""
    stated = Accession.objects.kept().filter(stated_lines__settled="").select_related("party")
    return [check for one in reconcile_all(stated.distinct()) for check in one.waiting]


def next_serial(year: int) -> int:
    """Return the next number of the year; withdrawn accessions keep theirs."""
    last = Accession.objects.filter(year=year).aggregate(last=Max("serial"))["last"]
    return int(last or 0) + 1


def _found(accessions: list[Accession]) -> dict[int, Found]:
    rows = (
        Part.objects.kept()
        .filter(accession__in=accessions)
        .order_by()
        .values_list("accession", "component")
        .annotate(count=Sum("quantity"), surviving=Sum(F("quantity") * F("surviving_share")))
    )
    found: dict[int, Found] = {}
    for accession, component, count, surviving in rows:
        share = Fraction(surviving).limit_denominator(1000)
        found.setdefault(accession, {})[component] = Pieces(count, share)
    return found


def _compare(
    accession: Accession,
    lines: list[StatedLine],
    found: Found,
    components: Mapping[int, Component],
) -> Reconciliation:
    mentioned = {line.component_id for line in lines} - {None}
    claimed: Found = {}
    unmentioned = []
    for component, pieces in found.items():
        claim = _claim(component, mentioned, components)
        if claim is None:
            named = None if component is None else components[component]
            unmentioned.append(Unmentioned(named, pieces.count))
        else:
            claimed[claim] = claimed.get(claim, Pieces()) + pieces
    checks = tuple(_check(line, lines, claimed, components) for line in lines)
    return Reconciliation(accession, checks, tuple(sorted(unmentioned, key=_named_first)))


def _claim(
    component: int | None, mentioned: set[int | None], components: Mapping[int, Component]
) -> int | None:
    """Return the nearest kind, going up from ``component``, that a line mentions."""
    seen: set[int] = set()
    while component is not None and component not in seen:
        if component in mentioned:
            return component
        seen.add(component)
        component = components[component].broader_id
    return None


def _check(
    line: StatedLine,
    lines: list[StatedLine],
    claimed: Found,
    components: Mapping[int, Component],
) -> LineCheck:
    stated = _stated(line)
    if line.component_id is None:
        words = f"{stated_words(stated)}; not tied to a component yet"
        return LineCheck(line, 0, words, agrees=False)
    line.component = components[line.component_id]
    pieces = claimed.get(line.component_id, Pieces())
    fellows = [_stated(other) for other in lines if other.component_id == line.component_id]
    if len(fellows) > 1:
        return _check_together(line, stated, fellows, pieces)
    words = difference_words(stated, pieces.count, surviving=pieces.surviving)
    return LineCheck(line, pieces.count, words, agrees(stated, pieces.count))


def _check_together(
    line: StatedLine, stated: StatedWords, fellows: list[StatedWords], pieces: Pieces
) -> LineCheck:
    """Check lines of one component by their sum: which piece belongs to which is not known."""
    counts = [one.quantity for one in fellows if one.quantity is not None]
    total = sum(counts) if len(counts) == len(fellows) else None
    is_approximate = any(one.is_approximate for one in fellows)
    together = StatedWords(total, is_approximate, "")
    sum_words = difference_words(together, pieces.count, surviving=pieces.surviving)
    words = f"{stated_words(stated)}; in {len(fellows)} lines together {sum_words}"
    return LineCheck(line, pieces.count, words, agrees(together, pieces.count))


def _stated(line: StatedLine) -> StatedWords:
    return StatedWords(line.quantity, line.is_approximate, read_stated_line(line.text).rest)


def _named_first(one: Unmentioned) -> tuple[bool, str]:
    return (one.component is None, str(one.component or ""))
