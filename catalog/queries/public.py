"""What visitors may see: published records only, as plain words with nothing private in them."""

from collections import Counter
from dataclasses import dataclass

from django.urls import reverse

from catalog.models import Fitting, Part, Patent, Photo, Vehicle
from catalog.models.photos import PhotoQuerySet
from catalog.queries.ages import built_words
from catalog.queries.needs import VehicleNeeds, needs_of
from catalog.queries.patents import FigureSheet, PatentFacts, figure_sheets, patent_facts
from catalog.queries.provenance import Provenance, provenance_of
from catalog.queries.vehicles import (
    Completeness,
    Plate,
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
    """How many of a component are not fitted yet, out of how many, and how many in which state."""

    component: str
    missing: int
    total: int
    states: tuple[tuple[str, int], ...]


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
    class_url: str
    print_url: str


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
    needs = needs_of(vehicle, for_visitor=True)
    positions = [need.position for need in needs.needs]
    plates = plates_of(vehicle, positions, needs.states, published_only=True)
    return PublicVehicle(
        label=vehicle.label,
        number=vehicle.running_number,
        cells=_cells(vehicle),
        status=vehicle.get_status_display(),
        story=vehicle.story,
        completeness=Completeness(needs.filled, needs.essential),
        plates=tuple(plates),
        photos=Photo.objects.in_order().filter(vehicle=vehicle, is_published=True),
        provenance=provenance_of(vehicle, for_visitor=True),
        wanting=_wanting(needs),
        parts=_parts(vehicle),
        class_url=_class_url(vehicle),
        print_url=f"{reverse('print-sheet', args=['vehicle', vehicle.pk])}?public=1",
    )


def _class_url(vehicle: Vehicle) -> str:
    built_to = vehicle.vehicle_class
    is_shown = built_to.is_published and not built_to.is_withdrawn
    return built_to.get_absolute_url() if is_shown else ""


def _what(vehicle: Vehicle) -> str:
    built_to = vehicle.vehicle_class
    return ", ".join(filter(None, (built_to.designation, built_to.name)))


def _cells(vehicle: Vehicle) -> tuple[tuple[str, str], ...]:
    return (
        ("Class", vehicle.vehicle_class.designation),
        ("Gauge", vehicle.vehicle_class.gauge_text),
        ("Works no.", vehicle.works_number),
        ("Built", built_words(vehicle, for_visitor=True)),
        ("Status", vehicle.get_status_display()),
    )


def _wanting(needs: VehicleNeeds) -> tuple[Wanting, ...]:
    by_component: dict[str, list[str]] = {}
    for need in needs.needs:
        if need.position.is_essential:
            by_component.setdefault(str(need.position.component), []).append(need.state)
    return tuple(
        Wanting(name, len(still), len(states), tuple(Counter(still).items()))
        for name, states in sorted(by_component.items())
        if (still := [state for state in states if state != Fitting.State.FITTED])
    )


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
