"""A piece on the bench: a part with its readings, taken as what it is or as what it may be."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from catalog.models import Characteristic, Component, Part
from catalog.queries.components import spelling
from catalog.queries.fit_facts import Readings, readings_of
from catalog.queries.identifications import kinds_of
from catalog.queries.measurements import measured_together
from catalog.queries.supply import InHand, in_hand
from catalog.reckoning.uncertainty import Measured


@dataclass(frozen=True, slots=True)
class Piece:
    """A part, the component that it is held to be, and its combined readings.

    ``kinds`` are that component and the broader ones; ``is_assumed`` says that nobody has
    identified the part, so that the component is only what it may be.
    """

    part: InHand
    component: Component
    kinds: tuple[int, ...]
    readings: Readings
    is_assumed: bool = False

    @property
    def measured(self) -> Mapping[int, Measured]:
        return self.readings.of(self.part.pk)


def piece_of(part: Part, *, taken_as: Component | None = None) -> Piece | None:
    """Return the part as it is identified, or as ``taken_as``; nothing where neither is known."""
    component = part.component or taken_as
    found = in_hand([part.pk])
    if component is None or not found:
        return None
    kinds = kinds_of([component.pk])[component.pk]
    is_assumed = part.component is None
    readings = _readings_by_name(part, kinds) if is_assumed else readings_of([part.pk])
    held = replace(found[0], component_id=component.pk)
    if is_assumed:
        # It is weighed like what one person has proposed and nobody has looked at again.
        held = replace(held, identification_status=Part.Standing.PROPOSED)
    return Piece(held, component, kinds, readings, is_assumed)


def _readings_by_name(part: Part, kinds: Iterable[int]) -> Readings:
    """Return the readings of an unidentified part at the characteristics of the same name."""
    known = {
        spelling(one.name): one.pk for one in Characteristic.objects.filter(component__in=kinds)
    }
    groups = measured_together(part.measurements.kept().select_related("characteristic"))
    return Readings(
        {
            part.pk: {
                known[spelling(group.name)]: group.together.combined
                for group in groups
                if spelling(group.name) in known
            }
        }
    )
