"""Writing down the marks on a part, as they are read, and those a component is known by."""

from collections.abc import Mapping
from typing import Any, TypedDict, Unpack

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import Component, KnownMark, Member, Part, PartMark, VehicleClass
from catalog.operations.record import change, record_new, remove
from catalog.operations.searching import index_record
from catalog.reckoning.marks import NOTHING_LEGIBLE, normalize_mark, says_nothing


class AsRead(TypedDict, total=False):
    """How a mark was made, where on the part it is, and what it may mean."""

    manner: str
    place: str
    meaning: str


@transaction.atomic
def add_mark(part: Part, text: str, *, by: Member, **read: Unpack[AsRead]) -> PartMark:
    """Write down a mark as it is read, with ``?`` for each character that is illegible.

    ``manner`` is cast, stamped, painted, scratched or unknown. What was read and what it may
    mean are kept apart, so that a better reader can correct the one without the other.
    """
    told = {"part": part, "text": _read(text), **read}
    return record_new(PartMark, told, by=by, why="mark read")


@transaction.atomic
def change_mark(
    mark: PartMark, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> PartMark:
    """Correct a mark; refuse when it has moved on since ``seen``."""
    told = dict(values)
    if "text" in told:
        told["text"] = _read(told["text"])
    return change(mark, told, by=by, why="mark read again", seen=seen)


@transaction.atomic
def remove_mark(mark: PartMark, *, by: Member) -> None:
    """Take a mark off its part; what was read stays in the history."""
    part = mark.part
    remove(mark, by=by, why="mark taken off")
    index_record(part)


@transaction.atomic
def add_known_mark(
    component: Component,
    text: str,
    *,
    vehicle_class: VehicleClass | None = None,
    note: str = "",
    by: Member,
) -> KnownMark:
    """Add a mark or pattern number that this component is known to carry.

    Refuse one of which no character is legible, and one that reads like another it has.
    """
    values = {
        "component": component,
        "text": _known(component, text),
        "vehicle_class": vehicle_class,
        "note": note.strip(),
    }
    return record_new(KnownMark, values, by=by)


@transaction.atomic
def change_known_mark(
    mark: KnownMark, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> KnownMark:
    """Change a known mark; refuse what ``add_known_mark`` refuses, or a row that has moved on."""
    told = dict(values)
    if "text" in told:
        told["text"] = _known(mark.component, told["text"], besides=mark)
    return change(mark, told, by=by, seen=seen)


@transaction.atomic
def remove_known_mark(mark: KnownMark, *, by: Member) -> None:
    """Take a known mark off its component."""
    remove(mark, by=by, why=f"known mark removed: {mark}")


def _read(text: str) -> str:
    if not normalize_mark(text):
        words = "Write the letters and figures as read, with ? for each that you cannot read."
        raise ValidationError({"text": words})
    return text.strip()


def _known(component: Component, text: str, besides: KnownMark | None = None) -> str:
    text = text.strip()
    if not text:
        raise ValidationError({"text": "Write the mark as it stands on the casting."})
    if says_nothing(text):
        raise ValidationError({"text": NOTHING_LEGIBLE})
    # Two people could otherwise add the same mark in two spellings at the same moment.
    Component.objects.select_for_update().get(pk=component.pk)
    for other in component.known_marks.all():
        if other != besides and normalize_mark(other.text) == normalize_mark(text):
            words = f"“{text}” reads like “{other}”, a mark already known for the component."
            raise ValidationError({"text": words})
    return text
