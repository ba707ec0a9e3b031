"""Recording and changing people and organizations."""

from collections.abc import Mapping
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import Member, Party
from catalog.operations.record import change, record_new
from catalog.queries.parties import parties_called

# A name that holds one of these is an organization's; everything else is taken for a person.
ORGANIZED = {
    *("association", "brothers", "club", "co", "collection", "committee", "company", "corporation"),
    *("council", "department", "estate", "farm", "foundry", "group", "inc", "ironworks", "library"),
    *(
        "limited",
        "ltd",
        "mill",
        "museum",
        "partnership",
        "railroad",
        "railway",
        "school",
        "society",
    ),
    *("sons", "tramway", "trust", "university", "works", "yard"),
}


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


@transaction.atomic
def party_meant(meant: Party | str | None, field: str, *, by: Member) -> Party | None:
    """Return the party that was meant: itself, the one of this name, or a new one of this name.

    Nothing typed means no party. Refuse, beside ``field``, a name that several parties bear:
    the place behind it tells them apart.
    """
    if meant is None or isinstance(meant, Party):
        return meant
    name = " ".join(meant.split())
    found = parties_called(name) if name else []
    if len(found) > 1:
        told_apart = _how_to_tell_apart(found)
        raise ValidationError({field: f"{len(found)} parties are called {name}: {told_apart}."})
    if not name or found:
        return found[0] if found else None
    return record_party({"name": name, "kind": kind_of(name)}, by=by)


def _how_to_tell_apart(parties: list[Party]) -> str:
    placed = [f"“{party.name}, {party.place}”" for party in parties if party.place]
    if len(placed) < len(parties):
        return "give each of them its place first, then write the name, a comma and the place"
    return f"write {' or '.join(placed)}"


def kind_of(name: str) -> str:
    """Guess from a name whether it is a person's or an organization's."""
    words = {word.strip(".,()").lower() for word in name.split()}
    return Party.Kind.ORGANIZATION if words & ORGANIZED or "&" in name else Party.Kind.PERSON


def sort_name(values: Mapping[str, Any]) -> str:
    """Return the name as a list sorts it: a person by the last word, others as written."""
    name = str(values["name"]).strip()
    first, _, last = name.rpartition(" ")
    if values.get("kind", Party.Kind.PERSON) == Party.Kind.PERSON and first:
        return f"{last}, {first}"
    return name.removeprefix("The ")
