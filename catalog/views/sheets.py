"""The sheets of a record: the pages that its title block leads to."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.urls import reverse

from catalog.models import Part, Vehicle
from catalog.queries.ages import built_words
from catalog.queries.event_facts import EventFact
from catalog.queries.part_records import PartRecord, certainty_of


@dataclass(frozen=True, slots=True)
class Sheet:
    """One page of a record."""

    label: str
    url: str
    current: bool


def vehicle_sheets(vehicle: Vehicle, current: str) -> list[Sheet]:
    """Return the sheets of a vehicle; ``current`` is the label of the one in view."""
    addresses = {
        "Record": vehicle.get_absolute_url(),
        "Needs": reverse("vehicle-needs", args=[vehicle.slug]),
        "Provenance": reverse("provenance", args=["vehicle", vehicle.pk]),
        "Dismantling": reverse("vehicle-dismantling", args=[vehicle.slug]),
        "Differences": reverse("vehicle-differences", args=[vehicle.slug]),
        "Print": reverse("print-record", args=["vehicle", vehicle.pk]),
        "History": reverse("record-history", args=["vehicle", vehicle.pk]),
    }
    return [Sheet(label, url, label == current) for label, url in addresses.items()]


def vehicle_cells(
    vehicle: Vehicle, *, events: Iterable[EventFact] | None = None
) -> list[tuple[str, object]]:
    """Return the ruled cells of a vehicle's title block; ``events`` are its own, if at hand."""
    built_to = vehicle.vehicle_class
    return [
        ("Class", built_to.designation),
        ("Gauge", built_to.gauge_text),
        ("Works no.", vehicle.works_number),
        ("Built", built_words(vehicle, events=events)),
        ("Status", vehicle.get_status_display()),
        ("Order", vehicle.restoration_order),
    ]


def part_sheets(part: Part, current: str) -> list[Sheet]:
    """Return the sheets of a part: its record, what it is good for, and where it came from."""
    addresses = {
        "Record": part.get_absolute_url(),
        "What it may be": reverse("part-identity", args=[part.pk]),
        "What it fits": reverse("part-fits", args=[part.pk]),
        "Compare": reverse("part-compare", args=[part.pk]),
        "Provenance": reverse("provenance", args=["part", part.pk]),
        "Print": reverse("print-record", args=["part", part.pk]),
        "History": reverse("record-history", args=["part", part.pk]),
    }
    return [Sheet(label, url, label == current) for label, url in addresses.items()]


def part_cells(part: Part, record: PartRecord) -> list[tuple[str, object]]:
    """Return the ruled cells of a part's title block."""
    return [
        ("Class", part.vehicle_class),
        ("Certainty", certainty_of(part, record)),
        ("Usability", part.get_usability_display()),
        ("Recorded by", part.recorded_by),
        ("Date", part.recorded_at),
    ]


def record_sheets(record: Vehicle | Part, current: str) -> list[Sheet]:
    if isinstance(record, Vehicle):
        return vehicle_sheets(record, current)
    return part_sheets(record, current)


def record_cells(record: Vehicle | Part) -> list[tuple[str, object]]:
    if isinstance(record, Vehicle):
        return vehicle_cells(record)
    return [("What it is", record.component), ("In words", record.description)]


def record_titles(record: Vehicle | Part) -> tuple[str, str]:
    """Return the number and the name that stand in the title block."""
    if isinstance(record, Vehicle):
        return record.running_number, record.label
    return record.label, str(record.component or record.description or "not identified yet")
