"""The one way a record is written: checked whole, saved, and remembered with who and why."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any, TypeVar

from django.core.exceptions import ValidationError
from django.db import IntegrityError, models, transaction
from django.utils import timezone

from catalog.models import Location, Member
from catalog.models.guards import GUARDS
from catalog.models.withdrawals import Withdrawable
from catalog.operations.lineages import hold_tree, renew_lineages
from catalog.operations.searching import index_record

Record = TypeVar("Record", bound=models.Model)
Kept = TypeVar("Kept", bound=Withdrawable)


@transaction.atomic
def keep(
    record: Record, *, by: Member | None, why: str, fields: Iterable[str] | None = None
) -> Record:
    """Check ``record`` whole and save it, with a history entry naming ``by`` and ``why``.

    Nobody is named where somebody from outside wrote, as an answer to a want is written.

    ``fields`` limits what is written to these; refuse what the model or the database refuses.
    """
    return _kept(record, by=by, why=why, fields=fields)


def _kept(
    record: Record, *, by: Member | None, why: str, fields: Iterable[str] | None = None
) -> Record:
    """Keep ``record`` inside a transaction that has begun: each one more costs two queries."""
    record._history_user = by  # type: ignore[attr-defined]
    record._change_reason = why[:100]  # type: ignore[attr-defined]
    written = None if record._state.adding or fields is None else list(fields)
    try:
        _check(record, written)
        with transaction.atomic():
            record.save(update_fields=written)
    except (ValidationError, IntegrityError) as refusal:
        # Each constraint costs a query, so they are asked for their words only when needed.
        record.full_clean()
        raise ValidationError(refusal_in_words(refusal, record)) from refusal
    index_record(record)
    renew_lineages(record)
    return record


def _check(record: models.Model, written: list[str] | None) -> None:
    """Check all that the database cannot, and that what is newly pointed at is there."""
    left = [
        field.name
        for field in record._meta.concrete_fields
        if written is not None
        and field.is_relation
        and not {field.name, field.attname} & {*written}
    ]
    record.full_clean(exclude=left, validate_unique=False, validate_constraints=False)


def refusal_in_words(refusal: Exception, record: models.Model) -> str:
    """Find the words that the model has for the constraint which the database names."""
    told = str(refusal)
    for guard, words in GUARDS.items():
        if guard in told:
            return words
    for constraint in record._meta.constraints:
        if constraint.name in told:
            return str(constraint.violation_error_message)
    return (
        "Somebody else changed the record at the same moment. Look at it again and try once more."
    )


@transaction.atomic
def record_new(
    model: type[Record], values: Mapping[str, Any], *, by: Member | None, why: str = "recorded"
) -> Record:
    """Record a new row of ``model`` with ``values``, many-to-many links included."""
    links, plain = _parted(model, values)
    record = model(**plain)
    _kept(record, by=by, why=why)
    _link(record, {name: chosen for name, chosen in links.items() if chosen})
    return record


@transaction.atomic
def change(
    record: Record,
    values: Mapping[str, Any],
    *,
    by: Member,
    why: str = "changed",
    seen: int | None = None,
) -> Record:
    """Change ``record`` to ``values``.

    ``seen`` is the history entry that the person had before their eyes; refuse when the
    record has moved on since, so that nobody overwrites what they have not read.
    """
    _refuse_if_moved_on(record, seen)
    links, plain = _parted(type(record), values)
    for name, value in plain.items():
        setattr(record, name, value)
    _kept(record, by=by, why=why, fields=plain)
    _link(record, links)
    return record


@transaction.atomic
def withdraw(record: Kept, *, by: Member, reason: str, at: datetime | None = None) -> Kept:
    """Withdraw a mistaken record with a ``reason``; it stays in the history."""
    if not reason.strip():
        raise ValidationError({"reason": "Say why, so that others understand it later."})
    record.withdrawn_at = at or timezone.now()
    record.withdrawn_by = by
    record.withdrawn_reason = reason.strip()
    return keep(record, by=by, why=f"withdrawn: {reason.strip()}", fields=_WITHDRAWAL)


@transaction.atomic
def bring_back(record: Kept, *, by: Member) -> Kept:
    """Bring a withdrawn record back."""
    record.withdrawn_at = None
    record.withdrawn_by = None
    record.withdrawn_reason = ""
    return keep(record, by=by, why="brought back", fields=_WITHDRAWAL)


_WITHDRAWAL = ("withdrawn_at", "withdrawn_by", "withdrawn_reason")


@transaction.atomic
def restore_version(record: Record, version: int, *, by: Member) -> Record:
    """Put ``record`` back to how history entry ``version`` has it; the way there stays too.

    What follows from other records stays as it is: where a part is follows from its moves.
    """
    if isinstance(record, Location):
        hold_tree()
    entry = record.history.get(pk=version)  # type: ignore[attr-defined]
    former = entry.instance
    elsewhere = getattr(record, "KEPT_ELSEWHERE", ())
    names = [
        field.attname
        for field in record._meta.concrete_fields
        if not field.primary_key and field.name not in elsewhere
    ]
    for name in names:
        setattr(record, name, getattr(former, name))
    when = timezone.localtime(entry.history_date).strftime("%-d %B %Y at %H:%M")
    return keep(record, by=by, why=f"put back to {when}")


def latest_version(record: models.Model) -> int | None:
    """Return the newest history entry's key, for comparing when the change comes."""
    newest = record.history.order_by("-pk").values_list("pk", flat=True).first()  # type: ignore[attr-defined]
    return int(newest) if newest is not None else None


def _parted(
    model: type[models.Model], values: Mapping[str, Any]
) -> tuple[dict[str, Any], dict[str, Any]]:
    linked = {field.name for field in model._meta.many_to_many}
    links = {name: value for name, value in values.items() if name in linked}
    return links, {name: value for name, value in values.items() if name not in linked}


def _link(record: models.Model, links: Mapping[str, Any]) -> None:
    for name, chosen in links.items():
        getattr(record, name).set(chosen)


def _refuse_if_moved_on(record: models.Model, seen: int | None) -> None:
    if seen is None or seen == latest_version(record):
        return
    entry = record.history.select_related("history_user").order_by("-pk").first()  # type: ignore[attr-defined]
    raise ValidationError(
        f"{entry.history_user or 'Somebody'} changed this while you were typing "
        f"({entry.history_change_reason or 'changed'}). Your entries are kept below: "
        "compare them with the record, then save again."
    )


@transaction.atomic
def remove(record: models.Model, *, by: Member, why: str = "removed") -> None:
    """Take a row off the record that carries it; what it said stays in the history.

    Refuse when other records rest on it. Records of their own are withdrawn instead.
    """
    record._history_user = by  # type: ignore[attr-defined]
    record._change_reason = why[:100]  # type: ignore[attr-defined]
    try:
        with transaction.atomic():
            record.delete()
    except models.ProtectedError as refusal:
        kinds = sorted({str(row._meta.verbose_name_plural) for row in refusal.protected_objects})
        raise ValidationError(
            f"“{record}” cannot be removed: {' and '.join(kinds)} rest on it."
        ) from refusal
