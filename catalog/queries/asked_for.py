"""What is asked for already: the open wants, shared out among the positions of one vehicle."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from django.urls import reverse

from catalog.models import Position, Vehicle, Want
from catalog.queries.needs import PositionNeed
from catalog.reckoning.plurals import listed


@dataclass(frozen=True, slots=True)
class AskedFor:
    """The open wants for one component: those for the vehicle itself, and all others.

    What another vehicle asks for is no piece for this one, so that the two are never added up.
    """

    own: tuple[Want, ...] = ()
    others: tuple[Want, ...] = ()

    @property
    def count(self) -> int:
        """Return how many are asked for, for the vehicle itself."""
        return sum(want.quantity for want in self.own)

    @property
    def elsewhere(self) -> str:
        """Say for whom else one is asked for, so that nobody takes it for one's own."""
        if not self.others:
            return ""
        names = (str(want.vehicle) if want.vehicle else "any vehicle" for want in self.others)
        return f"Asked for, for {listed(list(dict.fromkeys(names)))}."


NOTHING_ASKED = AskedFor()


def open_wants(kinds: Iterable[int]) -> list[Want]:
    """Return what is asked for of these components, for whatever vehicle."""
    rows = Want.objects.kept().filter(component__in=list(kinds), closed_at__isnull=True)
    return list(rows.select_related("vehicle").order_by("pk"))


def asked_for(vehicle: Vehicle, wants: Iterable[Want]) -> dict[int, AskedFor]:
    """Return by component what of the wants is for the vehicle, and what is for others."""
    found: dict[int, AskedFor] = {}
    for want in wants:
        before = found.get(want.component_id, NOTHING_ASKED)
        if want.vehicle_id == vehicle.pk:
            found[want.component_id] = AskedFor((*before.own, want), before.others)
        else:
            found[want.component_id] = AskedFor(before.own, (*before.others, want))
    return found


def shared_out(needs: Iterable[PositionNeed], asked: Mapping[int, AskedFor]) -> dict[int, Want]:
    """Return by position the want that asks for its piece, each want for so many as it says.

    A want that was written at a position serves that one first, and then what blocks the vehicle.
    """
    urgent = sorted(needs, key=lambda need: (not need.is_blocking, not need.position.is_essential))
    positions = [need.position for need in urgent]
    found: dict[int, Want] = {}
    for component, wants in asked.items():
        of_kind = [one for one in positions if one.component_id == component]
        found.update(_dealt(of_kind, wants.own))
    return found


def _dealt(positions: list[Position], wants: tuple[Want, ...]) -> dict[int, Want]:
    left = Counter({want.pk: want.quantity for want in wants})
    found: dict[int, Want] = {}
    for want in wants:
        own = next((one for one in positions if one.pk == want.position_id), None)
        if own is not None and own.pk not in found:
            found[own.pk] = want
            left[want.pk] -= 1
    for position in positions:
        if position.pk not in found:
            want_left = next((want for want in wants if left[want.pk] > 0), None)
            if want_left is None:
                break
            found[position.pk] = want_left
            left[want_left.pk] -= 1
    return found


def asking_address(vehicle: Vehicle, positions: Iterable[Position]) -> str:
    """Return where a want for these positions is written."""
    where = [("vehicle", vehicle.slug), *(("position", str(one.pk)) for one in positions)]
    return f"{reverse('want-add')}?{urlencode(where)}"
