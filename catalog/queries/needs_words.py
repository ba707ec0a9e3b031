"""The words of a needs sheet: what to do at a position, so short that a vehicle fits one page."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from django.utils.text import capfirst

from catalog.queries.candidates import Candidate
from catalog.queries.needs import PositionNeed, VehicleNeeds
from catalog.queries.routes import Kind, PositionRoutes, VehicleRoutes
from catalog.queries.supply import where_kept
from catalog.reckoning.conformance import Fit

ARROW = " › "
ELSE = {Kind.REPAIR: "repair", Kind.PATTERN: "pattern", Kind.DRAWING: "drawing", Kind.ASK: "ask"}


@dataclass(frozen=True, slots=True)
class Words:
    """What is said of each position; places in ``site`` are named without it."""

    routes: Mapping[int, PositionRoutes]
    places: Mapping[int, str]
    site: str

    def own_part(self, need: PositionNeed) -> str:
        """Return the part that is for this position alone, to stand beside its box."""
        if need.fitting is not None:
            return str(need.fitting.part)
        return str(need.best.part) if need.best is not None and need.best.is_usable else ""

    def of(self, need: PositionNeed) -> str:
        """Say where the part lies and what to mind, or by which route to come by one."""
        if need.fitting is not None:
            return _sentences([need.words, self._short(self.places.get(need.fitting.part_id))])
        if need.best is not None and need.best.is_usable:
            where = self._short(need.best.part.location)
            return _sentences([where, _brief(need.best), *need.best.flags])
        return _sentences(self._route(self.routes[need.position.pk]))

    def alike(self, need: PositionNeed) -> str:
        """Return the same for positions of a component that stand under one line of words.

        One may be seen on one drawing, and its like on another: the first is named.
        """
        own = self.routes.get(need.position.pk)
        return Kind.DRAWING if own and own.best.kind == Kind.DRAWING else self.of(need)

    def _route(self, own: PositionRoutes) -> Iterator[str]:
        best = own.best
        yield best.words
        if best.part is not None:
            yield self._short(best.part.location)
        if best.hours is not None:
            yield f"about {_plain(best.hours)} hours"
        others = [ELSE[route.kind] for route in own.others if route.kind in ELSE]
        if others:
            yield f"or: {', '.join(others)}"

    def _short(self, place: str | None) -> str:
        return (place or "").removeprefix(f"{self.site}{ARROW}")


def words_for(needs: VehicleNeeds, routes: VehicleRoutes) -> Words:
    """Return the words of a vehicle's positions, in so many queries however many there are."""
    by_position = {one.position.pk: one for one in routes.positions}
    held = [n.fitting.part_id for n in needs.needs if n.fitting is not None and not n.is_filled]
    places = where_kept(held)
    dealt = [need.best.part.location or "" for need in needs.needs if need.best is not None]
    return Words(by_position, places, _usual_site([*places.values(), *dealt]))


def _usual_site(places: Iterable[str]) -> str:
    """Return the site in which most of the places are, if any place is inside of one."""
    sites = Counter(place.partition(ARROW)[0] for place in places if ARROW in place)
    return max(sites, key=lambda site: sites[site], default="")


def _brief(candidate: Candidate) -> str:
    """Say the verdict without what its page says; a trial or a doubt is said in full."""
    found = candidate.verdict
    if candidate.trial is not None or found.fit == Fit.DOUBTFUL:
        return candidate.reason
    if found.fit == Fit.FITS:
        return "fits as worn" if found.is_worn else "fits as measured"
    if found.missing:
        return f"measure first: {'; '.join(found.missing)}"
    return "nothing to check it against"


def _plain(hours: Decimal) -> str:
    return f"{hours:.1f}".removesuffix(".0")


def _sentences(phrases: Iterable[str]) -> str:
    """Join phrases as sentences, each with a capital and one full stop."""
    whole = (phrase.rstrip(".") for phrase in phrases if phrase)
    return " ".join(f"{capfirst(phrase)}." for phrase in whole)
