"""How new pieces can be made for the places of vehicles: from a pattern in hand, or a drawing.

A pattern can be cast from again and again, so that it makes as many pieces as there are places
for them, unless its owner allows only so many. One that is kept for a vehicle makes pieces for
that vehicle alone.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import takewhile

from catalog.models import Accession, Part
from catalog.queries.candidates import Place, rank
from catalog.queries.documents import Documents, documents_of
from catalog.queries.fit_bench import Bench
from catalog.queries.supply import InHand
from catalog.reckoning.assignment import Route
from catalog.reckoning.casting_notes import allowance_note
from catalog.reckoning.efforts import HOURS_OF_A_MAKING, Effort, effort_of
from catalog.reckoning.plurals import counted


@dataclass(frozen=True, slots=True)
class CountOn:
    """What a plan counts on besides parts that could be used now."""

    repairs: bool = False
    patterns: bool = False
    drawings: bool = False

    @classmethod
    def read(cls, told: Mapping[str, object]) -> "CountOn":
        """Read it from what a plan was made from; older plans do not say all of it."""
        return cls(*(bool(told.get(name)) for name in ("repairs", "patterns", "drawings")))


READY_ALONE = CountOn()


@dataclass(frozen=True, slots=True)
class Making:
    """How one new piece can be made for a place, at which effort, and what to mind.

    ``kept_for`` is the vehicle that the pattern is kept for; ``terms`` are those under which it
    is here. ``most`` is how many pieces may be made in this way, where that is limited.
    """

    words: str
    effort: Effort
    pattern: InHand | None = None
    note: str = ""
    terms: str = ""
    is_on_loan: bool = False
    kept_for: int | None = None
    most: int | None = None

    @property
    def limited_by(self) -> str:
        """Name the pattern that limits how many can be made, or nothing."""
        return "" if self.most is None or self.pattern is None else f"pattern {self.pattern.pk}"


Kinds = Mapping[str, str]
Held = Mapping[int, int]
Ways = Mapping[str, tuple[Making, ...]]


@dataclass(frozen=True, slots=True)
class Makings:
    """The ways to make a piece for each open place, by its key, and all that can be made."""

    of_places: Ways
    routes: tuple[Route, ...]
    castings_left: Mapping[int, int]

    def dealt(self, sent: Mapping[str, str]) -> dict[str, Making]:
        """Return how the piece is made that the plan sends to each place.

        All ways to make a piece for a place cost the same, so the plan may have taken a later
        one although castings are left of a better pattern: these go first.
        """
        found = {place: self._way(place, piece) for place, piece in sent.items()}
        used = Counter(way.limited_by for way in found.values())
        for place, taken in found.items():
            ways = self.of_places[place]
            for better in ways[: ways.index(taken)]:
                if better.most is not None and used[better.limited_by] < better.most:
                    used[better.limited_by] += 1
                    used[taken.limited_by] -= 1
                    found[place] = better
                    break
        return found

    def _way(self, place: str, piece: str) -> Making:
        ways = self.of_places[place]
        limited = (way for way in ways if way.limited_by and piece.endswith(way.limited_by))
        return next(limited, ways[-1])


def makings_of(
    bench: Bench, places: Mapping[str, Place], kinds: Kinds, count_on: CountOn, held: Held
) -> Makings:
    """Return what can be made for open places, by the ways that the plan counts on.

    ``kinds`` names places that take the same pieces; ``held`` keeps patterns for one vehicle, as
    their records may. Patterns are read once for all places, and documents once for each class.
    """
    if not (count_on.patterns or count_on.drawings):
        return Makings({}, (), {})
    lacking = {key: place for key, place in places.items() if place.fitting is None}
    documents = _documents(lacking.values()) if count_on.drawings else {}
    castings_left = _castings_left()
    maker = _Maker(bench, held, documents, castings_left)
    found = {
        key: tuple(maker.ways(place, with_patterns=count_on.patterns))
        for key, place in lacking.items()
    }
    # What suits one place suits all of its kind, although a drawing may name only one of them.
    free = {
        kinds[key]: way
        for key, ways in found.items()
        for way in ways
        if not way.kept_for and not way.limited_by
    }
    best = {key: _best(ways, free.get(kinds[key])) for key, ways in found.items()}
    made = _annotated({key: ways for key, ways in best.items() if ways})
    routes = tuple(_routes(made, lacking, kinds, free))
    return Makings(made, routes, castings_left)


def _best(ways: tuple[Making, ...], of_its_kind: Making | None) -> tuple[Making, ...]:
    """Return the ways up to the first without a limit, behind which no other is needed."""
    limited = tuple(takewhile(lambda way: way.limited_by, ways))
    endless = ways[len(limited) :][:1] or ((of_its_kind,) if of_its_kind else ())
    return limited + endless


def _routes(
    made: Ways, places: Mapping[str, Place], kinds: Kinds, free: Collection[str]
) -> Iterator[Route]:
    """Yield one lot of each component.

    What is kept for one vehicle is a lot for that one, and a pattern with a limit a lot of its
    own. Only for essential places: nobody has said that the rest is worth making.
    """
    wanted = {kinds[key] for key in made if places[key].position.is_essential}
    offered: dict[tuple[int, int | None, str], dict[str, Making]] = {}
    for key, ways in made.items():
        for way in ways if kinds[key] in wanted else ():
            is_free = not way.limited_by and kinds[key] in free
            lot = (
                places[key].position.component_id,
                None if is_free else way.kept_for,
                way.limited_by,
            )
            offered.setdefault(lot, {})[key] = way
    for (component, owner, limited_by), of_places in offered.items():
        way = next(iter(of_places.values()))
        yield Route(
            str(component),
            "make",
            cost=way.effort.tenths,
            limit=len(of_places) if way.most is None else min(way.most, len(of_places)),
            places=tuple(sorted({kinds[key] for key in of_places})),
            held_for=None if owner is None else str(owner),
            way=limited_by,
        )


@dataclass(frozen=True, slots=True)
class _Maker:
    bench: Bench
    held: Held
    documents: Mapping[int, Documents]
    castings_left: Mapping[int, int]

    def ways(self, place: Place, *, with_patterns: bool) -> Iterator[Making]:
        component = place.position.component
        effort = effort_of(
            component.making_hours, component.making_cost, unless_known=HOURS_OF_A_MAKING
        )
        for pattern in self._patterns(place) if with_patterns else ():
            yield Making(
                "make from pattern",
                effort,
                pattern,
                kept_for=self._kept_for(pattern),
                most=self.castings_left.get(pattern.pk),
            )
        documents = self.documents.get(place.vehicle.vehicle_class_id)
        if documents is not None and (shown := documents.shown_for(place)):
            unknown = "" if place.limits else " (its dimensions are not recorded yet)"
            yield Making(f"make after {shown}{unknown}", effort)

    def _patterns(self, place: Place) -> list[InHand]:
        """Return the patterns that a piece for this place may be made from, the best first."""
        found = [
            self.bench.judge.judge(part, place)
            for kind in place.kinds
            for part in self.bench.parts.get(kind, ())
            if part.usability == Part.Usability.PATTERN
            and place.is_for(part)
            and self._kept_for(part) in (None, place.vehicle.pk)
            and self.castings_left.get(part.pk) != 0
        ]
        ranked = sorted(found, key=lambda each: rank(each, place.vehicle))
        return [candidate.part for candidate in ranked]

    def _kept_for(self, pattern: InHand) -> int | None:
        return self.held.get(pattern.pk, pattern.keep_with_id)


def _documents(places: Iterable[Place]) -> dict[int, Documents]:
    by_class: dict[int, list[Place]] = {}
    for place in places:
        by_class.setdefault(place.vehicle.vehicle_class_id, []).append(place)
    return {key: documents_of(own) for key, own in by_class.items()}


def _castings_left() -> dict[int, int]:
    """Return how many castings may still be made from each pattern, where somebody limits them."""
    limited = Part.objects.kept().filter(castings_left__isnull=False)
    return {
        part: left for part, left in limited.values_list("pk", "castings_left") if left is not None
    }


def _annotated(makings: Ways) -> dict[str, tuple[Making, ...]]:
    """Add to each way from a pattern what to mind of it: contraction, what is missing, terms."""
    keys = {way.pattern.pk for ways in makings.values() for way in ways if way.pattern}
    rows = Part.objects.filter(pk__in=keys).select_related(
        "accession__party", "component", "keep_with"
    )
    patterns = {part.pk: part for part in rows}
    return {
        key: tuple(
            _with_notes(way, patterns[way.pattern.pk]) if way.pattern else way for way in ways
        )
        for key, ways in makings.items()
    }


def _with_notes(way: Making, pattern: Part) -> Making:
    return replace(way, note=_note(pattern), terms=_terms(pattern), is_on_loan=_is_on_loan(pattern))


def _is_on_loan(pattern: Part) -> bool:
    accession = pattern.accession
    return accession is not None and accession.method == Accession.Method.LOAN


def _note(pattern: Part) -> str:
    share = pattern.surviving_share
    broken = f"Only {share.normalize():%} of the pattern survives. " if share < 1 else ""
    return broken + allowance_note(pattern.material, share, piece=str(pattern.component or ""))


def _terms(pattern: Part) -> str:
    """Say under which terms the pattern is here: those of a loan may count the castings."""
    accession = pattern.accession
    told = []
    if accession is not None and _is_on_loan(pattern):
        told.append(f"On loan from {accession.party or 'its owner'}.")
    if accession is not None and accession.terms:
        told.append(f"Terms of {accession}: {accession.terms}")
    if pattern.castings_left is not None:
        told.append(f"{counted(pattern.castings_left, 'casting')} may still be made from it.")
    if pattern.keep_with is not None:
        told.append(f"Kept for {pattern.keep_with}.")
    return " ".join(told)
