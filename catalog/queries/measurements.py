"""Which characteristics a part can be measured at, and what its readings amount to."""

from collections.abc import Iterable
from dataclasses import dataclass

from catalog.models import Characteristic, Measurement, Part
from catalog.queries.identifications import kinds_of
from catalog.reckoning.uncertainty import Agreement, agreement


@dataclass(frozen=True, slots=True)
class Measured:
    """The readings at one place of a part, and what they amount to together."""

    name: str
    where_to_measure: str
    readings: tuple[Measurement, ...]
    together: Agreement

    @property
    def is_repeated(self) -> bool:
        return len(self.readings) > 1


def characteristics_of(part: Part) -> list[Characteristic]:
    """Return the characteristics of what the part is identified as, the broader kinds' too."""
    if part.component_id is None:
        return []
    kinds = kinds_of([part.component_id])[part.component_id]
    return list(Characteristic.objects.filter(component__in=kinds).order_by("sequence", "name"))


def names_of_characteristics() -> list[str]:
    """Return the names under which anything is measured, for what nobody has identified yet."""
    rows = Characteristic.objects.filter(component__withdrawn_at__isnull=True)
    return list(rows.order_by("name").values_list("name", flat=True).distinct())


def readings_together(part: Part, name: str) -> Measured | None:
    """Return all that was read at one place of ``part``, where it was read more than once."""
    rows = part.measurements.kept().filter(name=name).select_related("characteristic")
    found = measured_together(rows)
    return found[0] if found and found[0].is_repeated else None


def measured_together(readings: Iterable[Measurement]) -> tuple[Measured, ...]:
    """Gather repeats of one characteristic, each group with what it amounts to."""
    groups: dict[str, list[Measurement]] = {}
    for reading in readings:
        groups.setdefault(reading.name, []).append(reading)
    return tuple(
        Measured(name, _where(group[0]), tuple(group), _together(group))
        for name, group in groups.items()
    )


def _together(group: list[Measurement]) -> Agreement:
    readings = [one.measured for one in group]
    # Repeats with one instrument share its divisions, which no repeating averages away.
    is_one_instrument = len({one.instrument_id for one in group}) == 1
    least = min(one.uncertainty for one in readings) if is_one_instrument else 0.0
    return agreement(*readings, least_uncertainty=least)


def _where(reading: Measurement) -> str:
    return reading.characteristic.where_to_measure if reading.characteristic else ""
