"""Which records are printed together: all vehicles, or the parts of one location or accession."""

from collections.abc import Sequence
from dataclasses import dataclass

from catalog.models import Accession, Location, Part, Vehicle

# So many sheets are made while somebody watches; a longer run is printed in several goes.
SHEETS_A_RUN = 40


@dataclass(frozen=True, slots=True)
class PrintRun:
    """The records to be printed together, and what they are called together."""

    title: str
    records: Sequence[Vehicle | Part]

    @property
    def parcels(self) -> list[tuple[int, int]]:
        """Return the first and last number of the records of each run."""
        count = len(self.records)
        return [
            (first + 1, min(first + SHEETS_A_RUN, count)) for first in range(0, count, SHEETS_A_RUN)
        ]

    def parcel(self, first: int) -> Sequence[Vehicle | Part]:
        """Return the records of the run that begins with number ``first``."""
        return self.records[first - 1 : first - 1 + SHEETS_A_RUN]


def all_vehicles() -> PrintRun:
    rows = Vehicle.objects.kept().select_related("vehicle_class__builder").in_restoration_order()
    return PrintRun("Provenance sheets of all vehicles", list(rows))


def parts_at(location: Location) -> PrintRun:
    below = Location.objects.filter(lineage__startswith=location.lineage)
    rows = Part.objects.kept().filter(location__in=below)
    parts = list(rows.for_detail().in_numerical_order())
    return PrintRun(f"Part sheets of {location.path}", parts)


def parts_with(accession: Accession) -> PrintRun:
    parts = list(accession.parts.kept().for_detail().in_numerical_order())
    return PrintRun(f"Part sheets of {accession}", parts)
