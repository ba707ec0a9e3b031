"""What routes are told from: documents, materials, hazards, and wants."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalog.models import Component, Hazard, Part, Vehicle
from catalog.queries.asked_for import AskedFor, asked_for, open_wants
from catalog.queries.candidates import Place
from catalog.queries.documents import Documents, documents_of
from catalog.queries.fit_bench import Bench


@dataclass(frozen=True, slots=True)
class RouteFacts:
    """All that the routes of one vehicle are told from.

    ``asked`` is by component; ``castings_left`` only tells of patterns with a limit.
    """

    documents: Documents
    materials: Mapping[int, str]
    castings_left: Mapping[int, int]
    component_hazards: Mapping[int, tuple[Hazard, ...]]
    part_hazards: Mapping[int, tuple[Hazard, ...]]
    asked: Mapping[int, AskedFor]


def facts_for_routes(bench: Bench, vehicles: Iterable[Vehicle]) -> dict[int, RouteFacts]:
    """Return the facts of each vehicle, in so many queries however many are of one class."""
    vehicles = list(vehicles)
    places = [place for vehicle in vehicles for place in bench.places[vehicle.pk]]
    kinds = {kind for place in places for kind in place.kinds}
    parts = _broken_or_patterns(bench, places)
    told = list(Part.objects.filter(pk__in=parts).values_list("pk", "material", "castings_left"))
    # The same code means another place on the drawing of another class.
    documents = {
        key: documents_of(place for place in places if place.vehicle.vehicle_class_id == key)
        for key in {vehicle.vehicle_class_id for vehicle in vehicles}
    }
    materials = {part: material for part, material, _ in told}
    castings_left = {part: left for part, _, left in told if left is not None}
    of_kinds = hazards_through(Component.hazards.through.objects, "component", kinds)
    of_parts = hazards_through(Part.hazards.through.objects, "part", parts)
    wants = open_wants(kinds)
    return {
        vehicle.pk: RouteFacts(
            documents=documents[vehicle.vehicle_class_id],
            materials=materials,
            castings_left=castings_left,
            component_hazards=of_kinds,
            part_hazards=of_parts,
            asked=asked_for(vehicle, wants),
        )
        for vehicle in vehicles
    }


def _broken_or_patterns(bench: Bench, places: Iterable[Place]) -> set[int]:
    return {
        candidate.part.pk
        for place in places
        if place.fitting is None
        for candidate in bench.candidates(place)
        if candidate.state in ("repair", "pattern")
    }


def hazards_through(rows: object, link: str, keys: set[int]) -> dict[int, tuple[Hazard, ...]]:
    """Return the hazards of each component or part."""
    chosen = rows.filter(**{f"{link}__in": keys})  # type: ignore[attr-defined]
    found: dict[int, tuple[Hazard, ...]] = {}
    for row in chosen.select_related("hazard").order_by("hazard__label"):
        key = getattr(row, f"{link}_id")
        found[key] = (*found.get(key, ()), row.hazard)
    return found
