"""What changed in a stretch of time, by kind, in words; and what of it is news to a member."""

import datetime as dt
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from django.db import models
from django.urls import reverse
from django.utils import timezone

from catalog.models import (
    Answer,
    Fitting,
    Identification,
    Member,
    Opinion,
    Part,
    Vehicle,
    Want,
)
from catalog.queries.deeds import Deed, Kind, deeds_of
from catalog.queries.lately import ONE_SITTING, Happening, written_besides
from catalog.queries.nearer import Progress, progress
from catalog.queries.remembered import remembered
from catalog.queries.spans import Span
from catalog.queries.structures import FROM as STRUCTURE
from catalog.reckoning.plurals import counted, listed

# So many deeds of a kind are looked at for the shop's page, for the page of all, and for one kind.
MOST_NEWS, MOST, MOST_OF_ONE = 100, 300, 1_000
# What these tell is not made of deeds one by one.
_OF_THEIR_OWN = (Kind.VEHICLES, Kind.WRITTEN)
FROM = (*STRUCTURE, Answer, Fitting, Identification, Member, Opinion, Part, Vehicle, Want)


@dataclass(frozen=True, slots=True)
class Thing:
    """What something was done to, by what people call it."""

    label: str
    url: str


@dataclass(slots=True)
class Line:
    """What one person did alike to one or several things in one sitting."""

    at: dt.datetime
    by: str
    words: str
    things: list[Thing]
    others: int = 0

    SHOWN = 3

    @property
    def shown(self) -> list[Thing]:
        return self.things[: self.SHOWN]

    @property
    def more(self) -> int:
        return self.others + len(self.things) - len(self.shown)


@dataclass(frozen=True, slots=True)
class Group:
    """All that changed of one kind: how much in words, and line by line, newest first."""

    kind: Kind
    words: str
    lines: tuple[Line, ...]
    is_cut: bool = False


@dataclass(frozen=True, slots=True)
class News:
    """What others did since a member was here last."""

    since: dt.datetime
    groups: tuple[Group, ...]

    @property
    def address(self) -> str:
        """Return where all of it stands, as a link that can be sent to others."""
        return changes_address(self.since)


def news_of(member: Member, since: dt.datetime) -> News:
    """Return what others did since then, gathered anew only when something has changed."""
    span = Span(since, but_by=member.pk)
    told = [kind for kind in Kind if kind != Kind.WRITTEN]
    name = f"news of {member.pk} since {since.isoformat()}"
    return News(since, remembered(name, FROM, lambda: _groups(span, told, MOST_NEWS)))


def changes_in(span: Span, kind: str = "") -> tuple[Group, ...]:
    """Return what changed, of every kind or of one."""
    if kind in Kind.values:
        return _groups(span, [Kind(kind)], MOST_OF_ONE)
    return _groups(span, list(Kind), MOST)


def changes_address(since: dt.datetime, **more: str) -> str:
    """Return the address of all that changed from the day of ``since`` to today."""
    days = {"since": timezone.localtime(since).date(), "until": timezone.localdate()}
    return f"{reverse('changes')}?{urlencode({**days, **more})}"


def _groups(span: Span, kinds: Iterable[Kind], most: int) -> tuple[Group, ...]:
    kinds = list(kinds)
    deeds = {kind: deeds_of(kind, span, most) for kind in kinds if kind not in _OF_THEIR_OWN}
    things = _things({deed.subject for own in deeds.values() for deed in own})
    names: dict[int | None, str] = {one.pk: str(one) for one in Member.objects.all()}
    found = []
    for kind in kinds:
        if kind == Kind.VEHICLES:
            found.append(_vehicles(progress(span)))
        elif kind == Kind.WRITTEN:
            found.append(_written(written_besides(span, most // 6)))
        else:
            found.append(_told(kind, deeds[kind], things, names, most))
    return tuple(group for group in found if group.lines)


def _things(subjects: set[tuple[type[models.Model], int]]) -> dict[Any, Part | Want]:
    """Return what is still kept of the subjects: what was withdrawn since is no news."""
    found: dict[Any, Part | Want] = {}
    named = ("number", "tag", "description", "component__name")
    parts = Part.objects.kept().select_related("component").only(*named)
    for model, rows in ((Part, parts), (Want, Want.objects.kept())):
        keys = [key for of, key in subjects if of is model]
        found.update({(model, row.pk): row for row in rows.filter(pk__in=keys)})
    return found


def _told(
    kind: Kind,
    deeds: list[Deed],
    things: Mapping[Any, Part | Want],
    names: Mapping[int | None, str],
    most: int,
) -> Group:
    kept = [deed for deed in deeds if deed.subject in things]
    lines: list[Line] = []
    begun: dict[tuple[int | None, str], tuple[Line, dt.datetime]] = {}
    for deed in kept:
        thing = _thing(things[deed.subject], kind)
        line, before = begun.get((deed.by, deed.words), (None, deed.at))
        if line is None or before - deed.at > ONE_SITTING:
            line = Line(deed.at, names.get(deed.by, "Somebody from outside"), deed.words, [])
            lines.append(line)
        if thing not in line.things:
            line.things.append(thing)
        begun[deed.by, deed.words] = (line, deed.at)
    is_cut = len(deeds) == most
    return Group(kind, _heading(kind, kept, is_cut=is_cut), tuple(lines), is_cut)


def _thing(record: Part | Want, kind: Kind) -> Thing:
    name = str(record)
    # Where it is said what a part is, its name would only say it twice.
    if isinstance(record, Part) and kind != Kind.IDENTIFIED:
        name = f"{record} {record.component or record.description}".strip()
    return Thing(name, record.get_absolute_url())


def _heading(kind: Kind, deeds: list[Deed], *, is_cut: bool) -> str:
    counts = Counter(sort for sort, _ in {(deed.sort, deed.subject) for deed in deeds})
    more = "at least " if is_cut else ""
    if kind == Kind.ANSWERS:
        came = counts["came in"]
        return (
            f"{more}{counted(came, 'new answer')} to what we ask for" if came else str(kind.label)
        )
    told = [f"{counts[sort]} {sort}" for sort in dict.fromkeys(deed.sort for deed in deeds)]
    if kind == Kind.IDENTIFIED:
        return f"{kind.label}: {more}{listed(told)}"
    first, *rest = told or [""]
    number, _, sort = first.partition(" ")
    parts = counted(int(number), "part") if number else ""
    return f"{more}{listed([f'{parts} {sort}', *rest])}"


def _vehicles(found: list[Progress]) -> Group:
    lines = tuple(
        Line(one.at, "", one.words, [Thing(str(one.vehicle), one.get_absolute_url())])
        for one in found
    )
    nearer = sum(one.is_nearer for one in found)
    words = f"{counted(nearer, 'vehicle')} nearer to done" if nearer else str(Kind.VEHICLES.label)
    return Group(Kind.VEHICLES, words, lines)


def _written(found: list[Happening]) -> Group:
    lines = tuple(Line(one.at, one.by, one.words, [_subject(one)], one.others) for one in found)
    return Group(Kind.WRITTEN, str(Kind.WRITTEN.label), lines)


def _subject(happening: Happening) -> Thing:
    record: Any = happening.subject
    return Thing(happening.title, record.get_absolute_url())
