"""What visitors may see: published records only, as plain words with nothing private in them."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from catalog.models import Part, Patent, Photo, Vehicle
from catalog.models.photos import PhotoQuerySet
from catalog.queries.patents import FigureSheet, PatentFacts, figure_sheets, patent_facts
from catalog.queries.positions import positions_of
from catalog.queries.provenance import Provenance, provenance_of
from catalog.queries.vehicles import (
    Completeness,
    Plate,
    completeness_of,
    fitting_states,
    plates_of,
    vehicle_rows,
)


@dataclass(frozen=True, slots=True)
class PublicVehicleRow:
    """A published vehicle as the public list shows it."""

    label: str
    url: str
    what: str
    status: str
    completeness: Completeness
    photo: Photo | None


@dataclass(frozen=True, slots=True)
class Wanting:
    """How many of a component are not fitted yet, out of how many."""

    component: str
    missing: int
    total: int


@dataclass(frozen=True, slots=True)
class PublicPart:
    """A published part that belongs to a published vehicle."""

    label: str
    what: str
    url: str


@dataclass(frozen=True, slots=True)
class PublicVehicle:
    """All that a visitor sees of one vehicle."""

    label: str
    number: str
    cells: tuple[tuple[str, str], ...]
    status: str
    story: str
    completeness: Completeness
    plates: tuple[Plate, ...]
    photos: PhotoQuerySet
    provenance: Provenance
    wanting: tuple[Wanting, ...]
    parts: tuple[PublicPart, ...]


def public_vehicles() -> list[PublicVehicleRow]:
    """Return the published vehicles in restoration order."""
    rows = Vehicle.objects.published().select_related("vehicle_class").in_restoration_order()
    return [
        PublicVehicleRow(
            label=row.vehicle.label,
            url=row.vehicle.get_absolute_url(),
            what=_what(row.vehicle),
            status=row.vehicle.get_status_display(),
            completeness=row.completeness,
            photo=row.photo,
        )
        for row in vehicle_rows(rows, published_photos=True)
    ]


def public_vehicle(vehicle: Vehicle) -> PublicVehicle:
    """Return what a visitor sees of a published vehicle."""
    states = fitting_states(vehicle)
    positions = positions_of(vehicle)
    plates = plates_of(vehicle, positions, states, published_only=True)
    return PublicVehicle(
        label=vehicle.label,
        number=vehicle.running_number,
        cells=_cells(vehicle),
        status=vehicle.get_status_display(),
        story=vehicle.story,
        completeness=completeness_of([vehicle])[vehicle.pk],
        plates=tuple(plates),
        photos=Photo.objects.in_order().filter(vehicle=vehicle, is_published=True),
        provenance=provenance_of(vehicle, for_visitor=True),
        wanting=_wanting(vehicle, states),
        parts=_parts(vehicle),
    )


def _what(vehicle: Vehicle) -> str:
    built_to = vehicle.vehicle_class
    return ", ".join(filter(None, (built_to.designation, built_to.name)))


def _cells(vehicle: Vehicle) -> tuple[tuple[str, str], ...]:
    return (
        ("Class", vehicle.vehicle_class.designation),
        ("Gauge", vehicle.vehicle_class.gauge_text),
        ("Works no.", vehicle.works_number),
        ("Built", vehicle.date_text),
        ("Status", vehicle.get_status_display()),
    )


def _wanting(vehicle: Vehicle, states: Mapping[int, str]) -> tuple[Wanting, ...]:
    essential = [position for position in positions_of(vehicle) if position.is_essential]
    total = Counter(str(position.component) for position in essential)
    missing = Counter(
        str(position.component) for position in essential if states.get(position.pk) != "fitted"
    )
    return tuple(Wanting(name, count, total[name]) for name, count in sorted(missing.items()))


def _parts(vehicle: Vehicle) -> tuple[PublicPart, ...]:
    own = Part.objects.kept().filter(is_published=True).select_related("component")
    fitted = own.filter(fittings__vehicle=vehicle, fittings__state="fitted")
    kept_for = own.filter(keep_with=vehicle)
    return tuple(
        PublicPart(part.label, str(part.component or "not identified yet"), part.get_absolute_url())
        for part in (fitted | kept_for).distinct().in_numerical_order()
    )


@dataclass(frozen=True, slots=True)
class PublicPatent:
    """All that a visitor sees of one patent."""

    number: str
    title: str
    cells: tuple[tuple[str, object], ...]
    inventors: tuple[str, ...]
    facts: PatentFacts
    figures: tuple[FigureSheet, ...]


def public_patent(patent: Patent) -> PublicPatent:
    """Return what a visitor sees of a published patent."""
    named = patent.inventors.kept().filter(is_name_public=True)
    facts = patent_facts(patent)
    return PublicPatent(
        number=str(patent),
        title=patent.title,
        cells=(
            ("Country", facts.country),
            ("Filed", patent.filed_on),
            ("Issued", patent.issued_on),
        ),
        inventors=tuple(party.name for party in named),
        facts=facts,
        figures=tuple(figure_sheets(patent, published_only=True)),
    )
