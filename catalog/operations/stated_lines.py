"""Writing down what a donor said was there, and settling how it differs from what came."""

from collections.abc import Mapping
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import Max

from catalog.models import Accession, Component, Member, StatedLine
from catalog.operations.record import change, record_new, remove
from catalog.operations.searching import index_record
from catalog.queries.components import ComponentNames
from catalog.reckoning.stated_lines import StatedWords, read_stated_line


@transaction.atomic
def add_stated_line(
    accession: Accession,
    text: str,
    *,
    quantity: int | None = None,
    is_approximate: bool = False,
    component: Component | None = None,
    by: Member,
) -> StatedLine:
    """Add one line as the donor put it: “seven journal boxes, some with brasses”.

    Without ``quantity`` the number is read from the words; without ``component`` the line is
    tied to the one component that goes by the name in them, where there is one.
    """
    read = read_stated_line(text)
    counted = quantity is None
    last = accession.stated_lines.aggregate(last=Max("sequence"))["last"]
    values = {
        "accession": accession,
        "text": text.strip(),
        "quantity": read.quantity if counted else quantity,
        "is_approximate": read.is_approximate if counted else is_approximate,
        "component": component or _component_meant(read),
        "sequence": 0 if last is None else last + 1,
    }
    line = record_new(StatedLine, values, by=by, why="stated")
    index_record(accession)
    return line


@transaction.atomic
def add_stated_lines(accession: Accession, text: str, *, by: Member) -> list[StatedLine]:
    """Add every line of ``text`` that has words, all of them or none."""
    lines = [line for line in text.splitlines() if line.strip()]
    if not lines:
        raise ValidationError({"lines": "Write down what the donor said, one thing a line."})
    return [add_stated_line(accession, line, by=by) for line in lines]


@transaction.atomic
def change_stated_line(
    line: StatedLine, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> StatedLine:
    """Change a stated line; a note that settled it falls away when the number changes."""
    told = dict(values)
    moved = any(
        told.get(name, getattr(line, name)) != getattr(line, name)
        for name in ("quantity", "component")
    )
    if moved:
        told["settled"] = ""
    change(line, told, by=by, seen=seen)
    index_record(line.accession)
    return line


@transaction.atomic
def remove_stated_line(line: StatedLine, *, by: Member) -> None:
    """Take a line off that was never stated; its words stay in the accession's history."""
    accession = line.accession
    remove(line, by=by, why="was not stated")
    index_record(accession)


@transaction.atomic
def settle_line(line: StatedLine, how: str, *, by: Member) -> StatedLine:
    """Settle how a line differs with a note on ``how``: the donor had counted from memory."""
    if not how.strip():
        raise ValidationError({"how": "Say how it was settled, so that others understand it."})
    return change(line, {"settled": how.strip()}, by=by, why="difference settled")


@transaction.atomic
def unsettle_line(line: StatedLine, *, by: Member) -> StatedLine:
    """Let a settled line wait again."""
    return change(line, {"settled": ""}, by=by, why="difference open again")


def _component_meant(read: StatedWords) -> Component | None:
    names = ComponentNames.gather()
    return names.find(read.noun) or names.find(read.rest)
