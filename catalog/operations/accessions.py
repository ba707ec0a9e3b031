"""Recording what came, from whom, under which terms, and what was said to be in it."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalog.models import Accession, Member
from catalog.operations.dates import with_date_read
from catalog.operations.parties import party_meant
from catalog.operations.record import change, record_new
from catalog.queries.accessions import next_serial


@transaction.atomic
def record_accession(
    values: Mapping[str, Any], *, by: Member, at: datetime | None = None
) -> Accession:
    """Record an accession with ``values`` by the names of its fields; none is necessary.

    ``party`` is a party or a name: a name nobody has yet is recorded as a new party.
    ``date_text`` is when it was received, as people say it. Without ``serial`` it gets the next
    number of ``year``, which is this year unless given. Refuse a number that is used, be it by
    a withdrawn accession.
    """
    told = _read(values, by)
    year = told.get("year") or timezone.localtime(at).year
    _queue_for_numbers()
    serial = told.get("serial") or next_serial(year)
    _refuse_used(year, serial)
    return record_new(Accession, {**told, "year": year, "serial": serial}, by=by)


@transaction.atomic
def change_accession(
    accession: Accession, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> Accession:
    """Change an accession; refuse another number once parts carry it."""
    told = _read(values, by)
    year = told.get("year") or accession.year
    serial = told.get("serial") or (
        accession.serial if year == accession.year else next_serial(year)
    )
    if (year, serial) != (accession.year, accession.serial):
        _queue_for_numbers()
        _refuse_renumbering(accession)
        _refuse_used(year, serial)
    return change(accession, {**told, "year": year, "serial": serial}, by=by, seen=seen)


@transaction.atomic
def close_accession(accession: Accession, *, by: Member) -> Accession:
    """Say that nothing more is taken in from this accession; differences go on waiting."""
    return change(accession, {"is_open": False}, by=by, why="taking in finished")


@transaction.atomic
def reopen_accession(accession: Accession, *, by: Member) -> Accession:
    """Take in more from an accession that was finished."""
    return change(accession, {"is_open": True}, by=by, why="taking in resumed")


def _read(values: Mapping[str, Any], by: Member) -> dict[str, Any]:
    told = with_date_read(values)
    if "party" in told:
        told["party"] = party_meant(told["party"], "party", by=by)
    return told


def _queue_for_numbers() -> None:
    """Let whoever wants a number wait for whoever is being given one.

    The oldest login is a row that is always there; the lock leaves references to it alone.
    """
    list(Member.objects.select_for_update(no_key=True).order_by("pk")[:1])


def _refuse_used(year: int, serial: int) -> None:
    former = Accession.objects.filter(year=year, serial=serial).select_related("party").first()
    if former is None:
        return
    whose = f", for what came from {former.party}" if former.party else ""
    withdrawn = " and was withdrawn; numbers are never used again" if former.is_withdrawn else ""
    raise ValidationError(
        {
            "number": f"{former.number} is already used{whose}{withdrawn}. "
            f"The next free number is {year}.{next_serial(year)}."
        }
    )


def _refuse_renumbering(accession: Accession) -> None:
    if accession.parts.exists():
        raise ValidationError(
            {"number": f"Parts are numbered under {accession.number} already; it stays."}
        )
