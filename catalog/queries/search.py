"""Finding any record by words: whole or begun, by other names of components, by number or tag."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from django.db import connection, models
from django.db.models.expressions import RawSQL

from catalog.models import Accession, Component, ComponentAlias, Location, Part, SearchEntry
from catalog.queries.components import ComponentNames
from catalog.queries.remembered import remembered
from catalog.queries.search_words import SEARCHED
from catalog.queries.tags import bearer_of
from catalog.reckoning.codes import is_valid_tag_code, normalize_tag_code
from catalog.reckoning.numbers import AccessionNumberError, parse_accession_number

MODELS = {kind: model for model, kind in SEARCHED.items()}
# Of everything else visitors have no page to be sent to.
PUBLISHED_KINDS = ("part", "vehicle", "patent")
# The index keeps dots within a word, so that a part number is one word.
WORD = re.compile(r"[^\W_]+(?:\.[^\W_]+)*")
MOST_WORDS = 8
LONGEST = 200
# Names of more words than this are found by their words only, not by other names for them.
LONGEST_NAME = 3


@dataclass(frozen=True, slots=True)
class Result:
    """One record that was found: what it is, where it is shown, and a line about it."""

    kind: str
    object_id: int
    title: str
    detail: str
    url: str


@dataclass(frozen=True, slots=True)
class Phrase:
    """Words that stand beside one another; the last one may be only begun."""

    words: tuple[str, ...]
    is_begun: bool

    def for_sqlite(self) -> str:
        return f'"{" ".join(self.words)}"{"*" if self.is_begun else ""}'

    def for_postgresql(self) -> str:
        *whole, last = (f"'{word}'" for word in self.words)
        return " <-> ".join([*whole, f"{last}:*" if self.is_begun else last])


# Each alternative is a list of phrases that must all be found, each under one of its names.
Alternative = tuple[tuple[Phrase, ...], ...]


def search(words: str, *, limit: int, published_only: bool = False) -> tuple[Result, ...]:
    """Return records that hold all ``words``, those whose title begins with them first.

    Parts are by far the most, so at most ``limit`` of them and ``limit`` of all else are
    returned. Whatever was typed is taken as words and nothing else. With ``published_only``
    titles alone are searched, and only what visitors may see is returned.
    """
    found = entries_holding(words, titles_only=published_only)
    if published_only:
        found = found.filter(_is_published())
    of_parts = found.filter(kind="part").order_by("pk")[:limit]
    others = found.exclude(kind="part").order_by("pk")[:limit]
    return _results([*others, *of_parts], words)


def entries_holding(words: str, *, titles_only: bool = False) -> models.QuerySet[SearchEntry]:
    """Return the entries of the index that hold all ``words``."""
    asked = _asked(words)
    if not asked:
        return SearchEntry.objects.none()
    if connection.vendor == "sqlite":
        expression = _joined(asked, Phrase.for_sqlite, " AND ", " OR ")
        return SearchEntry.objects.filter(pk__in=_sqlite(expression, titles_only=titles_only))
    expression = _joined(asked, Phrase.for_postgresql, " & ", " | ")
    return SearchEntry.objects.filter(_postgresql(expression, titles_only=titles_only))


def exactly(words: str) -> Part | Location | Accession | None:
    """Return the one record whose number or tag was typed in full, if there is one."""
    if is_valid_tag_code(words):
        return bearer_of(normalize_tag_code(words))
    try:
        number = parse_accession_number(words)
    except AccessionNumberError:
        return None
    if number.item is None:
        return Accession.objects.filter(year=number.year, serial=number.accession).first()
    return Part.objects.filter(number=str(number)).first()


def component_names() -> ComponentNames:
    """Return every name of every component, gathered anew only when one has changed."""
    return remembered("component names", (Component, ComponentAlias), ComponentNames.gather)


def _asked(words: str) -> tuple[Alternative, ...]:
    typed = WORD.findall(words[:LONGEST])[:MOST_WORDS]
    if not typed:
        return ()
    names = component_names()
    plain = tuple((Phrase((word,), is_begun=True), *_named(word, names)) for word in typed)
    runs = [
        (start, start + length)
        for length in range(2, LONGEST_NAME + 1)
        for start in range(len(typed) - length + 1)
    ]
    return (
        plain,
        *(
            (*plain[:start], tuple(named), *plain[end:])
            for start, end in runs
            if (named := _named(" ".join(typed[start:end]), names))
        ),
    )


def _named(words: str, names: ComponentNames) -> list[Phrase]:
    """Return the names of the components that go by ``words``: a journal box for axlebox."""
    spelled = (WORD.findall(component.name) for component in names.called(words))
    return [Phrase(tuple(name), is_begun=False) for name in spelled if name]


def _joined(asked: Sequence[Alternative], told: Any, all_of: str, any_of: str) -> str:
    alternatives = (
        all_of.join(f"({any_of.join(told(phrase) for phrase in names)})" for names in alternative)
        for alternative in asked
    )
    return any_of.join(f"({alternative})" for alternative in alternatives)


def _sqlite(expression: str, *, titles_only: bool) -> RawSQL:
    column = "title : " if titles_only else ""
    return RawSQL(
        "SELECT rowid FROM catalog_search_words WHERE catalog_search_words MATCH %s",
        [f"{column}({expression})"],
    )


def _postgresql(expression: str, *, titles_only: bool) -> RawSQL:
    # The first condition is the one that the index answers.
    sql = "to_tsvector('simple', title || ' ' || words) @@ to_tsquery('simple', %s)"
    if titles_only:
        sql += " AND to_tsvector('simple', title) @@ to_tsquery('simple', %s)"
    asked = [expression] * sql.count("%s")
    return RawSQL(sql, asked, output_field=models.BooleanField())  # noqa: S611 - fixed text


def _is_published() -> models.Q:
    """Return the condition that a visitor may see what an entry stands for."""
    seen = models.Q()
    for kind in PUBLISHED_KINDS:
        shown = {"pk": models.OuterRef("object_id"), "is_published": True}
        record = MODELS[kind]._default_manager.filter(withdrawn_at__isnull=True, **shown)
        seen |= models.Q(models.Exists(record), kind=kind)
    return seen


def _results(entries: Iterable[SearchEntry], words: str) -> tuple[Result, ...]:
    entries = list(entries)
    records: dict[str, dict[int, Any]] = {
        kind: MODELS[kind]._default_manager.in_bulk(
            [entry.object_id for entry in entries if entry.kind == kind]
        )
        for kind in sorted({entry.kind for entry in entries})
    }
    begun = words.strip().casefold()
    found = [
        Result(entry.kind, entry.object_id, entry.title, entry.detail, record.get_absolute_url())
        for entry in entries
        if (record := records[entry.kind].get(entry.object_id)) is not None
    ]
    return tuple(sorted(found, key=lambda one: not one.title.casefold().startswith(begun)))
