"""What a vehicle needs, gathered for paper: like positions stand under one line of words."""

from collections.abc import Iterable
from dataclasses import dataclass

from catalog.models import Component, Vehicle
from catalog.queries.fit_bench import lay_out
from catalog.queries.needs import Assembly, PositionNeed, VehicleNeeds, needs_on
from catalog.queries.needs_words import Words, words_for
from catalog.queries.routes import VehicleRoutes, routes_of_all
from catalog.reckoning.plurals import listed


@dataclass(frozen=True, slots=True)
class Box:
    """A box to tick: the position, and the part that is for it alone."""

    code: str
    part: str


@dataclass(frozen=True, slots=True)
class SheetLine:
    """Positions of one component that are alike: their boxes, and what is to be done."""

    component: Component
    is_essential: bool
    state: str
    state_words: str
    words: str
    boxes: tuple[Box, ...]


@dataclass(frozen=True, slots=True)
class SheetAssembly:
    """What is open of one assembly, and what is fitted, in words."""

    name: str
    lines: tuple[SheetLine, ...]
    fitted: str


@dataclass(frozen=True, slots=True)
class NeedsPaper:
    """The whole sheet; places that name no site are in ``site``."""

    needs: VehicleNeeds
    routes: VehicleRoutes
    assemblies: tuple[SheetAssembly, ...]
    site: str

    @property
    def vehicle(self) -> Vehicle:
        return self.needs.vehicle

    @property
    def has_open(self) -> bool:
        return any(one.lines for one in self.assemblies)

    @property
    def has_fitted(self) -> bool:
        return any(one.fitted for one in self.assemblies)


def needs_papers(vehicles: Iterable[Vehicle]) -> list[NeedsPaper]:
    """Return the sheet of each vehicle, each as though it were alone in the shop."""
    vehicles = list(vehicles)
    bench = lay_out(vehicles, with_sources=True)
    needs = needs_on(bench, vehicles)
    routes = routes_of_all(bench, needs.values())
    return [_paper(needs[one.pk], routes[one.pk]) for one in vehicles]


def _paper(needs: VehicleNeeds, routes: VehicleRoutes) -> NeedsPaper:
    words = words_for(needs, routes)
    assemblies = (_assembly(one, words) for one in needs.assemblies)
    return NeedsPaper(needs, routes, tuple(assemblies), words.site)


def _assembly(assembly: Assembly, words: Words) -> SheetAssembly:
    fitted: dict[str, list[str]] = {}
    for need in assembly.filled:
        fitted.setdefault(need.position.component.name, []).append(need.position.code)
    told = (f"{name} {listed(codes)}" for name, codes in fitted.items())
    return SheetAssembly(assembly.name, _lines(assembly.open, words), "; ".join(told))


def _lines(needs: list[PositionNeed], words: Words) -> tuple[SheetLine, ...]:
    """Gather what is alike; a component stands where the first of its positions does."""
    gathered: dict[int, dict[tuple[object, ...], list[PositionNeed]]] = {}
    for need in needs:
        alike = (need.position.is_essential, need.state, words.alike(need))
        of_component = gathered.setdefault(need.position.component_id, {})
        of_component.setdefault(alike, []).append(need)
    return tuple(
        _line(group, words) for by_words in gathered.values() for group in by_words.values()
    )


def _line(group: list[PositionNeed], words: Words) -> SheetLine:
    first = group[0]
    return SheetLine(
        component=first.position.component,
        is_essential=first.position.is_essential,
        state=first.state,
        state_words=first.words,
        words=words.of(first),
        boxes=tuple(Box(need.position.code, words.own_part(need)) for need in group),
    )
