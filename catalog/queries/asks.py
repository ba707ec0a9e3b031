"""What to ask others for so that a vehicle can be finished, one line a component."""

from collections.abc import Iterable
from dataclasses import dataclass

from catalog.models import Component, Want
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
    """So many of a component, for which there is a want, or the page to write one."""

    component: Component
    count: int
    instead: tuple[str, ...]
    served: tuple[str, ...]
    want: Want | None
    url: str

    @property
    def words(self) -> str:
        return counted(self.count, self.component.name)

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
    asks = (_ask(group, served) for group in by_component.values())
    return tuple(sorted(asks, key=lambda ask: (-ask.count, ask.component.name)))


def _ask(group: list[PositionRoutes], served: dict[int, tuple[str, ...]]) -> Ask:
    asking = group[0].routes[-1]
    kinds = {route.kind for one in group for route in one.routes}
    return Ask(
        component=group[0].position.component,
        count=len(group),
        instead=tuple(words for kind, words in OWN_WORK.items() if kind in kinds),
        served=_once(name for one in group for name in served.get(one.position.pk, ())),
        want=asking.want,
        url=asking.url,
    )


def _once(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(names))
