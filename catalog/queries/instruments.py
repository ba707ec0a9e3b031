"""An instrument as its page shows it: what it is good for, and what was measured with it."""

from dataclasses import dataclass

from catalog.models import Instrument, Measurement
from catalog.reckoning.lengths import parse_length
from catalog.reckoning.uncertainty import Instrument as Tool
from catalog.reckoning.uncertainty import Measured, take_reading

EXAMPLE = "2 1/2 in"
SHOWN = 20


@dataclass(frozen=True, slots=True)
class InstrumentSheet:
    """An instrument, what a reading with it would be worth, and the latest readings with it."""

    instrument: Instrument
    example: Measured
    readings: tuple[Measurement, ...]
    count: int

    @property
    def example_text(self) -> str:
        return EXAMPLE


def instrument_sheet(instrument: Instrument) -> InstrumentSheet:
    taken = Measurement.objects.kept().filter(instrument=instrument, part__withdrawn_at=None)
    latest = taken.select_related("part", "measured_by").order_by("-measured_at", "-pk")
    return InstrumentSheet(
        instrument,
        take_reading(parse_length(EXAMPLE), instrument=tool_of(instrument)),
        tuple(latest[:SHOWN]),
        taken.count(),
    )


def tool_of(row: Instrument) -> Tool:
    """Return the instrument of the record as the reckoning takes it."""
    return Tool(
        row.slug, row.name, float(row.resolution_mm or 0), float(row.uncertainty_mm), row.note
    )
