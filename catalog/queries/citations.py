"""What sources stand behind: every statement that cites one, and statements that cite none."""

from dataclasses import dataclass
from typing import Any

from django.db import models

from catalog.models import (
    Citation,
    Deviation,
    Identification,
    MatingRule,
    Measurement,
    ProvenanceEvent,
    Source,
    Specification,
)
from catalog.models.sources import CITED
from catalog.queries.records import KINDS

# The words of addresses that name something a source can stand behind.
CITED_KINDS = {kind: kind.replace("-", "_") for kind in KINDS if kind.replace("-", "_") in CITED}
ABOUT_OTHERS = (
    ProvenanceEvent,
    Identification,
    Specification,
    MatingRule,
    Measurement,
    Deviation,
)
ALONG = (
    *("event__vehicle", "event__part", "identification__part", "identification__component"),
    *("identification__vehicle_class", "specification__vehicle_class"),
    *("specification__vehicle", "specification__characteristic__component"),
    *("mating_rule__outer__component", "mating_rule__inner__component"),
    *("measurement__part", "accession", "vehicle", "vehicle_class", "part", "patent"),
    *("deviation__vehicle", "deviation__vehicle_class"),
)


@dataclass(frozen=True, slots=True)
class CitedStatement:
    """A statement that cites a source: what kind, of which record, in words."""

    citation: Citation
    kind: str
    subject: models.Model
    address: str
    words: str


def statements_citing(source: Source) -> list[CitedStatement]:
    """Return every statement that ``source`` stands behind, in one query."""
    rows = source.citations.select_related(*ALONG).order_by("pk")
    return [_told(citation) for citation in rows]


def subject_of(statement: models.Model) -> models.Model:
    """Return the record that a statement is about, which may be itself."""
    if not isinstance(statement, ABOUT_OTHERS):
        return statement
    if isinstance(statement, MatingRule):
        return statement.outer.component
    links = ("vehicle", "part", "vehicle_class")
    link = next(name for name in links if getattr(statement, f"{name}_id", None) is not None)
    subject: models.Model = getattr(statement, link)
    return subject


def address_of(statement: models.Model) -> str:
    """Return the address where a statement is read: its own page, or that of its subject."""
    shown: Any = statement if hasattr(statement, "get_absolute_url") else subject_of(statement)
    return str(shown.get_absolute_url())


def unsourced() -> dict[str, models.QuerySet[Any]]:
    """Return the statements that no source stands behind, by kind, each in a list's order."""
    events = (
        ProvenanceEvent.objects.kept()
        .filter(vehicle__withdrawn_at__isnull=True, part__withdrawn_at__isnull=True)
        .select_related("vehicle", "part")
        .order_by("vehicle", "part", "sequence", "date_earliest", "pk")
    )
    identifications = (
        Identification.objects.standing()
        .filter(part__withdrawn_at__isnull=True)
        .select_related("part", "component", "vehicle_class")
        .order_by("part__number_sort", "pk")
    )
    specifications = Specification.objects.select_related(
        "vehicle_class", "vehicle", "characteristic__component"
    ).order_by("vehicle_class__designation", "characteristic", "pk")
    named: dict[str, models.QuerySet[Any]] = {
        "event": events,
        "identification": identifications,
        "specification": specifications,
    }
    return {kind: rows.filter(citations__isnull=True) for kind, rows in named.items()}


def words_of_statement(statement: models.Model) -> str:
    """Say a statement in few words, apart from the record it is about."""
    if isinstance(statement, Specification):
        return f"{statement.characteristic} of {statement.characteristic.component}"
    if isinstance(statement, MatingRule):
        return f"{statement} of {statement.inner.component}"
    return str(statement)


def cited_statement(citation: Citation) -> models.Model:
    """Return the one record that the citation stands behind."""
    link = next(name for name in CITED if getattr(citation, f"{name}_id") is not None)
    statement: models.Model = getattr(citation, link)
    return statement


def _told(citation: Citation) -> CitedStatement:
    statement = cited_statement(citation)
    return CitedStatement(
        citation=citation,
        kind=str(statement._meta.verbose_name),
        subject=subject_of(statement),
        address=address_of(statement),
        words=words_of_statement(statement),
    )
