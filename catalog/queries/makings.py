"""How new pieces can be made for the places of vehicles: from a pattern in hand, or a drawing.

A pattern can be cast from again and again, so that it makes as many pieces as there are places
for them. One that is kept for a vehicle makes pieces for that vehicle alone.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from catalog.models import Accession, Part
from catalog.queries.candidates import Place, rank
from catalog.queries.documents import Documents, documents_of
from catalog.queries.fit_bench import Bench
from catalog.queries.supply import InHand
from catalog.reckoning.assignment import Route
from catalog.reckoning.casting_notes import allowance_note
from catalog.reckoning.efforts import HOURS_OF_A_MAKING, Effort, effort_of


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
    is here.
    """

    words: str
    effort: Effort
    pattern: InHand | None = None
    note: str = ""
    terms: str = ""
    is_on_loan: bool = False
    kept_for: int | None = None


Kinds = Mapping[str, str]
Held = Mapping[int, int]


@dataclass(frozen=True, slots=True)
class Makings:
    """The best way to make a piece for each open place, by its key, and all that can be made."""

    of_places: Mapping[str, Making]
    routes: tuple[Route, ...]


def makings_of(
    bench: Bench, places: Mapping[str, Place], kinds: Kinds, count_on: CountOn, held: Held
) -> Makings:
    """Return what can be made for open places, by the ways that the plan counts on.

    ``kinds`` names places that take the same pieces; ``held`` keeps patterns for one vehicle, as
    their records may. Patterns are read once for all places, and documents once for each class.
    """
    if not (count_on.patterns or count_on.drawings):
        return Makings({}, ())
    lacking = {key: place for key, place in places.items() if place.fitting is None}
    maker = _Maker(bench, held, _documents(lacking.values()) if count_on.drawings else {})
    found = {
        key: tuple(maker.ways(place, with_patterns=count_on.patterns))
        for key, place in lacking.items()
    }
    # What suits one place suits all of its kind, although a drawing may name only one of them.
    free = {kinds[key]: way for key, ways in found.items() for way in ways if not way.kept_for}
    best = {key: next(iter(ways), free.get(kinds[key])) for key, ways in found.items()}
    made = _annotated({key: way for key, way in best.items() if way is not None})
    return Makings(made, tuple(_routes(made, lacking, kinds, free)))


def _routes(
    made: Mapping[str, Making], places: Mapping[str, Place], kinds: Kinds, free: Collection[str]
) -> Iterator[Route]:
    """Yield one lot of each component, and of what is kept for one vehicle a lot for that one.

    Only for essential places: nobody has said that the rest is worth making.
    """
    wanted = {kinds[key] for key in made if places[key].position.is_essential}
    offered: dict[tuple[int, int | None], list[str]] = {}
    for key, way in made.items():
        if kinds[key] in wanted:
            owner = None if kinds[key] in free else way.kept_for
            offered.setdefault((places[key].position.component_id, owner), []).append(key)
    for (component, owner), keys in offered.items():
        yield Route(
            str(component),
            "make",
            cost=made[keys[0]].effort.tenths,
            limit=len(keys),
            places=tuple(sorted({kinds[key] for key in keys})),
            held_for=None if owner is None else str(owner),
        )


@dataclass(frozen=True, slots=True)
class _Maker:
    bench: Bench
    held: Held
    documents: Mapping[int, Documents]

    def ways(self, place: Place, *, with_patterns: bool) -> Iterator[Making]:
        component = place.position.component
        effort = effort_of(
            component.making_hours, component.making_cost, unless_known=HOURS_OF_A_MAKING
        )
        for pattern in self._patterns(place) if with_patterns else ():
            kept_for = self._kept_for(pattern)
            yield Making("make from pattern", effort, pattern, kept_for=kept_for)
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


def _annotated(makings: Mapping[str, Making]) -> dict[str, Making]:
    """Add to each way from a pattern what to mind of it: contraction, what is missing, terms."""
    keys = {way.pattern.pk for way in makings.values() if way.pattern}
    rows = Part.objects.filter(pk__in=keys).select_related("accession__party", "keep_with")
    patterns = {part.pk: part for part in rows}
    return {
        key: _with_notes(way, patterns[way.pattern.pk]) if way.pattern else way
        for key, way in makings.items()
    }


def _with_notes(way: Making, pattern: Part) -> Making:
    return replace(way, note=_note(pattern), terms=_terms(pattern), is_on_loan=_is_on_loan(pattern))


def _is_on_loan(pattern: Part) -> bool:
    accession = pattern.accession
    return accession is not None and accession.method == Accession.Method.LOAN


def _note(pattern: Part) -> str:
    share = pattern.surviving_share
    broken = f"Only {share.normalize():%} of the pattern survives. " if share < 1 else ""
    return broken + allowance_note(pattern.material, share)


def _terms(pattern: Part) -> str:
    """Say under which terms the pattern is here: those of a loan may count the castings."""
    accession = pattern.accession
    told = []
    if accession is not None and _is_on_loan(pattern):
        told.append(f"On loan from {accession.party or 'its owner'}.")
    if accession is not None and accession.terms:
        told.append(f"Terms of {accession}: {accession.terms}")
    if pattern.keep_with is not None:
        told.append(f"Kept for {pattern.keep_with}.")
    return " ".join(told)
