"""Issuing printed sheets: each gets a number, and the file is kept as it was printed."""

import hashlib
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from django.core.exceptions import ValidationError
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import models
from django.utils import timezone

from catalog.models import Member, PrintedSheet
from catalog.operations.record import record_new

# Two members can print at the same moment; whoever comes second takes the next number.
TRIES = 5


@dataclass(frozen=True, slots=True)
class Printed:
    """What is printed: which kind of sheet, of which record, for whom and on which paper."""

    kind: str
    key: int | None
    title: str
    paper: str
    is_public: bool


def issue_sheet(
    printed: Printed,
    make: Callable[[int], bytes],
    *,
    by: Member,
    at: datetime | None = None,
) -> PrintedSheet:
    """Make the next issue of a sheet and keep its file, which ``make`` returns for its number.

    Making takes its time, so nothing is locked meanwhile: a number that somebody else took first
    is given up, and the sheet is made again under the next.
    """
    moment = at or timezone.now()
    for _ in range(TRIES):
        number = next_number()
        values = _values(printed, number, make(number), moment, by)
        try:
            return record_new(PrintedSheet, values, by=by, why="printed")
        except ValidationError:
            if not PrintedSheet.objects.filter(number=number).exists():
                raise
    raise ValidationError("Others are printing at this moment. Try once more.")


def next_number() -> int:
    """Return the number of the next issue."""
    last = PrintedSheet.objects.aggregate(last=models.Max("number"))["last"]
    return (last or 0) + 1


def _values(
    printed: Printed, number: int, data: bytes, at: datetime, by: Member
) -> dict[str, object]:
    digest = hashlib.sha256(data).hexdigest()
    name = default_storage.save(f"prints/{digest[:2]}/{digest}.pdf", ContentFile(data))
    return {
        "number": number,
        "kind": printed.kind,
        "key": printed.key,
        "title": printed.title[:240],
        "paper": printed.paper,
        "is_public": printed.is_public,
        "file": name,
        "sha256": digest,
        "byte_size": len(data),
        "printed_at": at,
        "printed_by": by,
    }
