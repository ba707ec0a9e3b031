"""Taking stock: what was found at a location is written down, and can be put right afterwards."""

from collections.abc import Iterable
from datetime import datetime

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalog.models import Location, Member, Move, StockTake, StockTakeLine
from catalog.operations.moves import move_parts
from catalog.operations.record import record_new
from catalog.operations.record_many import record_many
from catalog.queries.stock_takes import Found, expected_at, is_at, outcome_of, read_lines

Result = StockTakeLine.Result


@transaction.atomic
def take_stock(
    location: Location, lines: Iterable[str], *, by: Member, at: datetime | None = None
) -> StockTake:
    """Compare ``lines``, which are tags and numbers, with what is recorded at ``location``.

    Places inside the location belong to it, and so does what their parts hold. Nothing is
    moved: the lines keep what was here, what was missing, what is recorded elsewhere, and what
    is not known. The labels of the location and of places inside it are passed over. Refuse an
    empty list, and a location that is withdrawn.
    """
    found = [one for one in read_lines(lines) if not _is_own_label(one, location)]
    if location.is_withdrawn:
        raise ValidationError(f"{location} is withdrawn.")
    if not found and not expected_at(location).exists():
        raise ValidationError({"pieces": "Nothing is recorded here and nothing was scanned."})
    taken = record_new(
        StockTake,
        {"location": location, "counted_at": at or timezone.now(), "counted_by": by},
        by=by,
    )
    record_many([*_seen(taken, found), *_missing(taken, found)], by=by)
    return taken


@transaction.atomic
def move_unexpected(stock_take: StockTake, *, by: Member, at: datetime | None = None) -> list[Move]:
    """Move the parts that were found here though they are recorded elsewhere.

    Those that somebody has moved here since are left alone; refuse when none is left.
    """
    elsewhere = outcome_of(stock_take).elsewhere
    if not elsewhere:
        raise ValidationError("All of them are recorded here by now.")
    note = "found in a stock-take"
    return move_parts(elsewhere, location=stock_take.location, note=note, by=by, at=at)


def _seen(taken: StockTake, found: list[Found]) -> list[StockTakeLine]:
    return [_line(taken, one) for one in found]


def _line(taken: StockTake, one: Found) -> StockTakeLine:
    line = StockTakeLine(stock_take=taken, words=one.words[:120], part=one.part)
    line.note = one.note[:240]
    if one.part is None:
        line.result = Result.UNKNOWN
        return line
    line.result = Result.HERE if is_at(one.part, taken.location) else Result.UNEXPECTED
    line.recorded_at = str(one.part.location or one.part.inside or "")
    return line


def _missing(taken: StockTake, found: list[Found]) -> list[StockTakeLine]:
    seen = {one.part.pk for one in found if one.part is not None}
    return [
        StockTakeLine(
            stock_take=taken, result=Result.MISSING, part=part, recorded_at=str(part.location)
        )
        for part in expected_at(taken.location).in_numerical_order()
        if part.pk not in seen
    ]


def _is_own_label(one: Found, location: Location) -> bool:
    return one.location is not None and one.location.lineage.startswith(location.lineage)
