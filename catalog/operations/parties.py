"""Recording and changing people and organizations."""

from collections.abc import Mapping
from typing import Any

from django.db import transaction

from catalog.models import Member, Party
from catalog.operations.record import change, record_new


@transaction.atomic
def record_party(values: Mapping[str, Any], *, by: Member) -> Party:
    """Record a person or organization; only the name is needed."""
    return record_new(Party, {**values, "sort_name": sort_name(values)}, by=by)


@transaction.atomic
def change_party(
    party: Party, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> Party:
    """Change a person or organization; refuse when the record has moved on since ``seen``."""
    return change(party, {**values, "sort_name": sort_name(values)}, by=by, seen=seen)


def sort_name(values: Mapping[str, Any]) -> str:
    """Return the name as a list sorts it: a person by the last word, others as written."""
    name = str(values["name"]).strip()
    first, _, last = name.rpartition(" ")
    if values.get("kind", Party.Kind.PERSON) == Party.Kind.PERSON and first:
        return f"{last}, {first}"
    return name.removeprefix("The ")
