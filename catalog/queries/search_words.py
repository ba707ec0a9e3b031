"""By which words each kind of record is found."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.db import models

from catalog.models import (
    Accession,
    Component,
    Location,
    Part,
    Party,
    Patent,
    Source,
    Vehicle,
    VehicleClass,
)

SEARCHED: dict[type[models.Model], str] = {
    Part: "part",
    Vehicle: "vehicle",
    VehicleClass: "vehicle-class",
    Component: "component",
    Accession: "accession",
    Party: "party",
    Source: "source",
    Location: "location",
    Patent: "patent",
}


@dataclass(frozen=True, slots=True)
class Found:
    """What a result shows (``title``, ``detail``) and the words it is found by."""

    title: str
    detail: str
    words: str


def words_of(record: Any) -> Found:
    title, detail, extra = WORDS[type(record)](record)
    parts = [title, detail, *extra]
    return Found(title, detail, " ".join(str(part) for part in parts if part))


def _part(part: Part) -> tuple[str, str, Sequence[str | None]]:
    what = str(part.component) if part.component else part.description
    marks = list(part.marks.values_list("text", flat=True))
    extra = [part.tag, part.description, part.condition, part.defect, part.material, *marks]
    return f"{part.label} {what}".strip(), part.description, extra


def _vehicle(vehicle: Vehicle) -> tuple[str, str, Sequence[str | None]]:
    numbers = [vehicle.running_number, vehicle.name, vehicle.works_number]
    return vehicle.label, f"{vehicle.vehicle_class}", numbers


def _vehicle_class(kind: VehicleClass) -> tuple[str, str, Sequence[str | None]]:
    return kind.designation, kind.name, [str(kind.builder or "")]


def _component(component: Component) -> tuple[str, str, Sequence[str | None]]:
    return (
        component.name,
        component.definition,
        list(component.aliases.values_list("name", flat=True)),
    )


def _accession(accession: Accession) -> tuple[str, str, Sequence[str | None]]:
    lines = list(accession.stated_lines.values_list("text", flat=True))
    return f"Donation {accession.number}", accession.summary, [str(accession.party or ""), *lines]


def _party(party: Party) -> tuple[str, str, Sequence[str | None]]:
    return party.name, party.place, [party.known_as]


def _source(source: Source) -> tuple[str, str, Sequence[str | None]]:
    return source.title, source.get_kind_display(), [source.creator, source.reference_number]


def _location(location: Location) -> tuple[str, str, Sequence[str | None]]:
    return location.path, location.get_kind_display(), [location.tag]


def _patent(patent: Patent) -> tuple[str, str, Sequence[str | None]]:
    return str(patent), patent.title, []


WORDS: dict[type[models.Model], Any] = {
    Part: _part,
    Vehicle: _vehicle,
    VehicleClass: _vehicle_class,
    Component: _component,
    Accession: _accession,
    Party: _party,
    Source: _source,
    Location: _location,
    Patent: _patent,
}
