"""What to ask others for so that a vehicle can be finished, one line a component."""

from collections.abc import Iterable
from dataclasses import dataclass

from catalog.models import Component, Position, Vehicle, Want
from catalog.queries.asked_for import NOTHING_ASKED, AskedFor, asking_address
from catalog.queries.needs import VehicleNeeds
from catalog.queries.plans import MOST_NAMED, VehiclePlan
from catalog.queries.routes import Kind, PositionRoutes, VehicleRoutes
from catalog.reckoning.plurals import counted, listed

OWN_WORK = {
    Kind.FREE: "free one from a later vehicle",
    Kind.REPAIR: "repair what is in hand",
    Kind.PATTERN: "make from a pattern",
    Kind.DRAWING: "make from a drawing",
}


@dataclass(frozen=True, slots=True)
class Ask:
    """So many of a component: the wants for this vehicle, and the page to ask for the rest.

    ``url`` is empty once all are asked for; ``elsewhere`` says who else asks for the same.
    """

    component: Component
    count: int
    instead: tuple[str, ...]
    served: tuple[str, ...]
    wants: tuple[Want, ...]
    elsewhere: str
    url: str

    @property
    def words(self) -> str:
        return counted(self.count, self.component.name)

    @property
    def asked(self) -> int:
        return min(self.count, sum(want.quantity for want in self.wants))

    @property
    def standing(self) -> str:
        """Say how many of those that are lacking are asked for, and whether in public."""
        if not self.wants:
            return ""
        is_all = self.asked == self.count
        public = [want.is_published for want in self.wants]
        if not any(public):
            of_all = "" if is_all else f" for {self.asked} of {self.count}"
            return f"a want is written{of_all}, which only members see"
        of_all = "" if is_all else f" {self.asked} of {self.count}"
        return f"asked for{of_all}{' in public' if all(public) else ', not all in public yet'}"

    @property
    def to_ask(self) -> str:
        """Name what is still to be asked for, as on the link that leads there."""
        if not self.wants:
            return self.component.name if self.count == 1 else self.words
        return f"{self.count - self.asked} more"

    @property
    def remark(self) -> str:
        """Say who gets what would fit, and what can be done without asking."""
        goes = f"What would fit goes to {listed(list(self.served[:MOST_NAMED]))}. "
        ways = f"Or {' or '.join(self.instead)}. "
        return f"{goes if self.served else ''}{ways if self.instead else ''}".strip()


def asks_of(
    needs: VehicleNeeds, routes: VehicleRoutes, plan: VehiclePlan | None
) -> tuple[Ask, ...]:
    """Return what is lacking of each component, the most numerous first.

    By the plan, what goes to a vehicle that is served before is lacking here too; without one
    the vehicle is taken to be alone in the shop.
    """
    served: dict[int, tuple[str, ...]] = {}
    if plan is None:
        lacking = [need.position.pk for need in needs.needs if need.is_blocking]
    else:
        served = {o.position.pk: tuple(str(v) for v in o.served) for o in plan.lacking}
        lacking = list(served)
    found = {key: one for one in routes.positions if (key := one.position.pk) in lacking}
    by_component: dict[int, list[PositionRoutes]] = {}
    for one in found.values():
        by_component.setdefault(one.position.component_id, []).append(one)
    asks = (_ask(needs.vehicle, group, served, routes) for group in by_component.values())
    return tuple(sorted(asks, key=lambda ask: (-ask.count, ask.component.name)))


def _ask(
    vehicle: Vehicle,
    group: list[PositionRoutes],
    served: dict[int, tuple[str, ...]],
    routes: VehicleRoutes,
) -> Ask:
    component = group[0].position.component
    kinds = {route.kind for one in group for route in one.routes}
    asked = routes.asked.get(component.pk, NOTHING_ASKED)
    rest = _not_asked_for([one.position for one in group], asked)
    return Ask(
        component=component,
        count=len(group),
        instead=tuple(words for kind, words in OWN_WORK.items() if kind in kinds),
        served=_once(name for one in group for name in served.get(one.position.pk, ())),
        wants=asked.own,
        elsewhere=asked.elsewhere,
        url=asking_address(vehicle, rest) if rest else "",
    )


def _not_asked_for(lacking: list[Position], asked: AskedFor) -> list[Position]:
    """Return the positions for which nothing is asked yet; a want names one of its own at most."""
    named = {want.position_id for want in asked.own}
    in_order = sorted(lacking, key=lambda position: position.pk not in named)
    return in_order[asked.count :]


def _once(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(names))
