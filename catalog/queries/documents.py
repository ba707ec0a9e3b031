"""Drawings and patent figures that show pieces of vehicles, and what is stated of their size."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalog.models import Drawing, Likeness, ReferenceCharacter
from catalog.queries.candidates import Place
from catalog.reckoning.plurals import counted, listed


@dataclass(frozen=True, slots=True)
class Documents:
    """What pieces can be made after: ``drawings`` by code and component, figures by component."""

    drawings: Mapping[tuple[str, int], Drawing]
    figures: Mapping[int, str]

    def words_for(self, place: Place) -> str:
        """Say after what a piece can be made, and whether its dimensions are known."""
        shown = self.shown_for(place)
        unknown = "" if place.limits else " Its dimensions are not recorded yet."
        return f"Make one after {shown}.{unknown}" if shown else ""

    def shown_for(self, place: Place) -> str:
        """Say which drawing or figure shows the piece, and who states its dimensions."""
        told = []
        drawing = self.drawings.get((place.position.code, place.position.component_id))
        if drawing is not None:
            told.append(f"the drawing “{drawing}”")
        if place.limits:
            sources = {limits.source for _, limits in place.limits} - {""}
            stated = f" from {'; '.join(sorted(sources))}" if sources else ""
            told.append(f"{counted(len(place.limits), 'recorded dimension')}{stated}")
        elif figure := self._figure(place):
            told.append(figure)
        return listed(told)

    def _figure(self, place: Place) -> str:
        shown = (self.figures.get(kind, "") for kind in sorted(place.kinds))
        return next((words for words in shown if words), "")


def documents_of(places: Iterable[Place]) -> Documents:
    """Return what shows the pieces at the places of one class, in a fixed number of queries."""
    places = list(places)
    kinds = {kind for place in places for kind in place.kinds}
    return Documents(_drawings(places), _figures(kinds))


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
