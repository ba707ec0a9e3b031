"""Keep the words by which a record is found in step with the record."""

from django.db import models

from catalog.models import Component, PartMark, SearchEntry
from catalog.models.withdrawals import Withdrawable
from catalog.queries.search_words import SEARCHED, words_of


def index_record(record: models.Model) -> None:
    """Renew the search entry of ``record``, or of the part that a mark belongs to."""
    subject: models.Model = record.part if isinstance(record, PartMark) else record
    kind = SEARCHED.get(type(subject))
    if kind is None:
        return
    if isinstance(subject, Withdrawable) and subject.is_withdrawn:
        SearchEntry.objects.filter(kind=kind, object_id=subject.pk).delete()
        return
    found = words_of(subject)
    if isinstance(subject, Component):
        _renew_parts(subject, found.title)
    told = {"title": found.title[:240], "detail": found.detail[:240], "words": found.words}
    entry = SearchEntry(kind=kind, object_id=subject.pk, **told)
    # One statement, where looking first and then writing would take six.
    SearchEntry.objects.bulk_create(
        [entry],
        update_conflicts=True,
        unique_fields=["object_id", "kind"],
        update_fields=list(told),
    )


def _renew_parts(component: Component, title: str) -> None:
    """Renew the words of a component's parts, which hold its name, when it gets another one."""
    former = SearchEntry.objects.filter(kind="component", object_id=component.pk).first()
    if former is None or former.title != title:
        for part in component.parts.kept():
            index_record(part)
