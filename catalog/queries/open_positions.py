"""The open positions of several vehicles that are alike, each with the best route to filling it."""

from collections.abc import Iterable
from dataclasses import dataclass

from catalog.models import Position, Vehicle
from catalog.queries.fit_bench import lay_out
from catalog.queries.needs import PositionNeed, needs_on
from catalog.queries.routes import PositionRoutes, Route, routes_of_all


@dataclass(frozen=True, slots=True)
class Unfilled:
    """A position that is not filled; what is reserved or on trial there needs no route.

    ``asked`` is the kind of route that somebody asked for, which need not be the best.
    """

    need: PositionNeed
    routes: PositionRoutes | None
    asked: str = ""

    @property
    def best(self) -> Route | None:
        return self.routes.best if self.routes else None

    @property
    def also(self) -> Route | None:
        """Return the route that was asked for, where another is better."""
        others = self.routes.others if self.routes else ()
        return next((route for route in others if route.kind == self.asked), None)

    @property
    def is_as_asked(self) -> bool:
        return not self.asked or (self.routes is not None and self.routes.has(self.asked))


def open_positions(
    vehicles: Iterable[Vehicle], *, assembly: str = "", route: str = ""
) -> list[Unfilled]:
    """Return what is open on the vehicles, in their order, of one assembly or route if given.

    The best routes are those of each vehicle were it alone in the shop. To weigh them is costly,
    so ask for no more vehicles than somebody waits for.
    """
    vehicles = list(vehicles)
    bench = lay_out(vehicles, with_sources=True)
    needs = needs_on(bench, vehicles)
    routes = routes_of_all(bench, needs.values())
    own = {
        (key, one.position.pk): one for key, of_one in routes.items() for one in of_one.positions
    }
    every = (need for vehicle in vehicles for need in needs[vehicle.pk].needs)
    still_open = (
        Unfilled(need, own.get((need.vehicle.pk, need.position.pk)), route)
        for need in every
        if not need.is_filled and assembly in ("", need.position.assembly)
    )
    return [one for one in still_open if one.is_as_asked]


def assemblies() -> list[str]:
    """Return the names of all assemblies, for a choice among them."""
    names = Position.objects.exclude(assembly="").order_by("assembly")
    return list(names.values_list("assembly", flat=True).distinct())
