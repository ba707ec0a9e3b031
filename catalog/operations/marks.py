"""Writing down the marks on a part, as they are read."""

from collections.abc import Mapping
from typing import Any, TypedDict, Unpack

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import Member, Part, PartMark
from catalog.operations.record import change, record_new, remove
from catalog.operations.searching import index_record
from catalog.reckoning.marks import normalize_mark


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


def _read(text: str) -> str:
    if not normalize_mark(text):
        words = "Write the letters and figures as read, with ? for each that you cannot read."
        raise ValidationError({"text": words})
    return text.strip()
