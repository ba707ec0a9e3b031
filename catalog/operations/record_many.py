"""Recording hundreds of rows at once: each checked, each with its history, in few queries."""

from collections.abc import Sequence
from typing import TypeVar

from django.core.exceptions import ValidationError
from django.db import IntegrityError, models, transaction
from simple_history.utils import bulk_create_with_history

from catalog.models import Member, SearchEntry
from catalog.operations.record import refusal_in_words
from catalog.queries.search_words import SEARCHED, words_of

Row = TypeVar("Row", bound=models.Model)
# SQLite takes some 32,000 values in one statement; a part and its history have some forty.
_AT_ONCE = 400


@transaction.atomic
def record_many(rows: Sequence[Row], *, by: Member, why: str = "recorded") -> None:
    """Record new ``rows`` of one model, whose fields are checked already, with their history.

    The keys of the rows are filled in. Refuse all of them in words when the database refuses
    one: whoever wants to know which one looks beforehand, under the same lock.
    """
    if not rows:
        return
    model = type(rows[0])
    try:
        with transaction.atomic():
            if hasattr(model, "history"):
                bulk_create_with_history(
                    rows, model, _AT_ONCE, default_user=by, default_change_reason=why
                )
            else:
                model._default_manager.bulk_create(rows, batch_size=_AT_ONCE)
    except IntegrityError as refusal:
        raise ValidationError(refusal_in_words(refusal, rows[0])) from refusal


def index_new(rows: Sequence[models.Model]) -> None:
    """Make the search entries of records that have none yet."""
    entries = []
    for row in rows:
        found = words_of(row)
        entries.append(
            SearchEntry(
                kind=SEARCHED[type(row)],
                object_id=row.pk,
                title=found.title[:240],
                detail=found.detail[:240],
                words=found.words,
            )
        )
    SearchEntry.objects.bulk_create(entries, batch_size=_AT_ONCE)


def check_fields(row: models.Model) -> None:
    """Refuse what the fields of ``row`` refuse; links are to records that are at hand."""
    links = {field.name for field in row._meta.concrete_fields if field.is_relation}
    row.clean_fields(exclude=links)
    row.clean()
