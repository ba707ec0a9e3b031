"""What a phone keeps, so that pieces can be taken in and moved without a signal."""

from typing import Any

from catalog.models import Accession, Location, Member, Part, VehicleClass
from catalog.queries.components import components_to_choose

LAST_CAPTURES = 20


def reference_for(member: Member) -> dict[str, Any]:
    """Return the lists to choose from, and what ``member`` took in last, as plain values."""
    return {
        "component": _components(),
        "vehicle_class": [{"id": row.pk, "label": str(row)} for row in VehicleClass.objects.kept()],
        "location": [
            {"id": row.pk, "label": row.path, "words": row.tag or ""}
            for row in Location.objects.kept().order_by("path")
        ],
        "accession": [
            {"id": row.pk, "label": accession_label(row)}
            for row in Accession.objects.open().select_related("party")
        ],
        "last": _last_captures(member),
    }


def accession_label(accession: Accession) -> str:
    """Name an accession so that whoever stands before the pallet knows which one it is."""
    return f"{accession.number} · {accession.summary or accession.party or 'not described yet'}"


def _components() -> list[dict[str, Any]]:
    return [
        {
            "id": component.pk,
            "label": component.name,
            "words": " ".join(alias.name for alias in component.aliases.all()),
            "measured": [one.name for one in component.characteristics.all()],
        }
        for component in components_to_choose().prefetch_related("characteristics")
    ]


def _last_captures(member: Member) -> list[dict[str, Any]]:
    parts = Part.objects.kept().filter(recorded_by=member, capture_id__isnull=False)
    return [
        {
            "id": str(part.capture_id),
            "label": part.label,
            "words": str(part.component or part.description),
            "tag": part.tag or "",
            "address": part.get_absolute_url(),
        }
        for part in parts.select_related("component").order_by("-pk")[:LAST_CAPTURES]
    ]
