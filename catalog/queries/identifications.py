"""Identifications as the reckoning of opinions takes them."""

from collections.abc import Iterable, Mapping

from catalog.models import Component, Identification
from catalog.queries.remembered import remembered
from catalog.reckoning.opinions import Claim, Word

Kinds = Mapping[int, tuple[int, ...]]
SURENESS = {confidence: rank for rank, confidence in enumerate(Identification.Confidence.values)}


def kinds_of(components: Iterable[int]) -> Kinds:
    """Return each component followed by the broader ones that it is a kind of, by keys."""
    broader = _broader()
    return {component: _lineage(component, broader) for component in set(components)}


def narrower_than(component: int) -> list[int]:
    """Return the component and all the narrower ones, by keys."""
    broader = _broader()
    kinds = {key: _lineage(key, broader) for key in (*broader, component)}
    return sorted(key for key, lineage in kinds.items() if component in lineage)


def claims_of(rows: Iterable[Identification], kinds: Kinds | None = None) -> list[Claim]:
    """Return the identifications with their opinions as claims."""
    rows = list(rows)
    if kinds is None:
        kinds = kinds_of(row.component_id for row in rows)
    return [
        Claim(
            key=row.pk,
            kinds=kinds[row.component_id],
            vehicle_class=row.vehicle_class_id,
            by=row.made_by_id,
            at=row.made_at,
            confidence=SURENESS[row.confidence],
            words=tuple(
                Word(one.made_by_id, one.agrees, one.made_at) for one in row.opinions.all()
            ),
        )
        for row in rows
    ]


def _broader() -> dict[int, int | None]:
    return remembered("broader components", (Component,), _pairs)


def _pairs() -> dict[int, int | None]:
    pairs = Component.objects.filter(broader__isnull=False).values_list("pk", "broader")
    return dict(pairs)


def _lineage(component: int, broader: Mapping[int, int | None]) -> tuple[int, ...]:
    lineage: list[int] = []
    key: int | None = component
    while key is not None and key not in lineage:
        lineage.append(key)
        key = broader.get(key)
    return tuple(lineage)
