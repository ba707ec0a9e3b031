"""What routes are told from: drawings, patent figures, materials, hazards, and wants."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalog.models import (
    Component,
    Drawing,
    Hazard,
    Likeness,
    Part,
    ReferenceCharacter,
    Vehicle,
    Want,
)
from catalog.queries.candidates import Place
from catalog.queries.fit_bench import Bench


@dataclass(frozen=True, slots=True)
class RouteFacts:
    """All of one vehicle, gathered in so many queries however many positions it has.

    ``drawings`` are by code and component; ``figures`` by component; ``wants`` by component.
    """

    drawings: Mapping[tuple[str, int], Drawing]
    figures: Mapping[int, str]
    materials: Mapping[int, str]
    component_hazards: Mapping[int, tuple[Hazard, ...]]
    part_hazards: Mapping[int, tuple[Hazard, ...]]
    wants: Mapping[int, Want]


def facts_for_routes(bench: Bench, vehicle: Vehicle) -> RouteFacts:
    places = bench.places[vehicle.pk]
    kinds = {kind for place in places for kind in place.kinds}
    parts = _broken_or_patterns(bench, places)
    return RouteFacts(
        drawings=_drawings(places),
        figures=_figures(kinds),
        materials=dict(Part.objects.filter(pk__in=parts).values_list("pk", "material")),
        component_hazards=_hazards(Component.hazards.through.objects, "component", kinds),
        part_hazards=_hazards(Part.hazards.through.objects, "part", parts),
        wants=_wants(vehicle, kinds),
    )


def _broken_or_patterns(bench: Bench, places: Iterable[Place]) -> set[int]:
    return {
        candidate.part.pk
        for place in places
        if place.fitting is None
        for candidate in bench.candidates(place)
        if candidate.state in ("repair", "pattern")
    }


def _drawings(places: Iterable[Place]) -> dict[tuple[str, int], Drawing]:
    """Return the first drawing on which each position has its spot."""
    lineage = {key for place in places for key in place.classes}
    rows = Drawing.objects.filter(vehicle_class__in=lineage, picture__withdrawn_at__isnull=True)
    found: dict[tuple[str, int], Drawing] = {}
    for drawing in rows.select_related("source").prefetch_related("spots__position"):
        for spot in drawing.spots.all():
            found.setdefault((spot.position.code, spot.position.component_id), drawing)
    return found


def _figures(kinds: set[int]) -> dict[int, str]:
    """Return the first patent figure that shows each component, in words."""
    found: dict[int, str] = {}
    characters = ReferenceCharacter.objects.filter(
        component__in=kinds, figure__patent__withdrawn_at__isnull=True
    ).select_related("figure__patent")
    for row in characters.order_by("pk"):
        words = f"patent {row.figure}, at character {row.character}"
        found.setdefault(row.component_id or 0, words)
    alike = Likeness.objects.filter(
        component__in=kinds, figure__patent__withdrawn_at__isnull=True
    ).select_related("figure__patent")
    for likeness in alike.order_by("degree", "pk"):
        words = f"patent {likeness.figure} ({likeness.get_degree_display()})"
        found.setdefault(likeness.component_id or 0, words)
    return found


def _hazards(rows: object, link: str, keys: set[int]) -> dict[int, tuple[Hazard, ...]]:
    chosen = rows.filter(**{f"{link}__in": keys})  # type: ignore[attr-defined]
    found: dict[int, tuple[Hazard, ...]] = {}
    for row in chosen.select_related("hazard").order_by("hazard__label"):
        key = getattr(row, f"{link}_id")
        found[key] = (*found.get(key, ()), row.hazard)
    return found


def _wants(vehicle: Vehicle, kinds: set[int]) -> dict[int, Want]:
    """Return the open want for each component; one for this very vehicle before others."""
    rows = Want.objects.kept().filter(component__in=kinds, closed_at__isnull=True)
    ordered = sorted(rows, key=lambda want: (want.vehicle_id != vehicle.pk, want.pk))
    found: dict[int, Want] = {}
    for want in ordered:
        found.setdefault(want.component_id, want)
    return found
