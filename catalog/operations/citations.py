"""Tying sources to the statements they stand behind."""

from typing import Any, TypedDict, Unpack

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import (
    Accession,
    Citation,
    Deviation,
    Identification,
    MatingRule,
    Measurement,
    Member,
    Part,
    Patent,
    ProvenanceEvent,
    Source,
    Specification,
    Vehicle,
    VehicleClass,
)
from catalog.operations.record import record_new, remove
from catalog.operations.sources import record_source


class Statement(TypedDict, total=False):
    """What a citation stands behind: exactly one of these."""

    event: ProvenanceEvent
    identification: Identification
    specification: Specification
    mating_rule: MatingRule
    measurement: Measurement
    accession: Accession
    vehicle: Vehicle
    vehicle_class: VehicleClass
    part: Part
    patent: Patent
    deviation: Deviation


@transaction.atomic
def add_citation(
    source: Source,
    *,
    locator: str = "",
    says: str = "",
    by: Member,
    **statement: Unpack[Statement],
) -> Citation:
    """Put ``source`` behind one statement, with the place in it and what it says there.

    ``statement`` names exactly one record (``event=``, ``identification=`` …). Refuse a
    withdrawn source, and the same place in the same source twice behind one statement.
    """
    if len(statement) != 1:
        raise ValidationError("A citation stands behind exactly one statement.")
    if source.is_withdrawn:
        raise ValidationError({"source": f"“{source}” is withdrawn; bring it back first."})
    told = {"source": source, "locator": locator.strip(), **statement}
    if Citation.objects.filter(**told).exists():
        raise ValidationError({"source": f"“{Citation(**told)}” stands behind this already."})
    return record_new(Citation, {**told, "says": says.strip()}, by=by, why="cited")


@transaction.atomic
def example_of(source: Source, vehicle_class: VehicleClass, *, by: Member) -> Citation:
    """Let a surviving example count as one of the class, so that it is known what to measure."""
    says = "a surviving example of the class"
    return add_citation(source, says=says, vehicle_class=vehicle_class, by=by)


@transaction.atomic
def cite(
    source: Source | None,
    *,
    title: str = "",
    kind: str = Source.Kind.OTHER,
    by: Member,
    **told: Any,
) -> Citation:
    """Cite ``source``, or a new one of this ``title`` and ``kind``; see ``add_citation``."""
    if source is None:
        source = record_source({"title": title, "kind": kind}, by=by)
    return add_citation(source, by=by, **told)


@transaction.atomic
def remove_citation(citation: Citation, *, by: Member) -> None:
    """Take a source away from behind a statement; the citation stays in the history."""
    remove(citation, by=by, why="no longer cited")
