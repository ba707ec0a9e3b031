"""What was done in a stretch of time, kind by kind, read from the histories newest first."""

import datetime as dt
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from itertools import islice

from django.db import models
from django.db.models import F, Value
from django.db.models.functions import Coalesce

from catalog.models import (
    Answer,
    Component,
    Fitting,
    Identification,
    Move,
    Opinion,
    Part,
    Vehicle,
    Want,
)
from catalog.queries.spans import Span

State = Fitting.State
# Reservations follow plans by the dozen and move nothing, so they are no news.
TOLD_STATES: Mapping[str, tuple[str, str]] = {
    State.FITTED: ("fitted", "fitted on"),
    State.REMOVED: ("taken off", "taken off"),
    State.TRIAL: ("put on trial", "put on trial on"),
    State.REJECTED: ("rejected at trial", "did not go on"),
}
# Of what a piece that is split off a lot takes over, nothing is said anew.
TAKEN_OVER = "as "
ANSWERED = ("came in", "acknowledged", "became a source", "became an accession")


class Kind(models.TextChoices):
    """The kinds in which the page tells what changed, in the order in which it does."""

    TAKEN_IN = "taken-in", "Taken in"
    IDENTIFIED = "identified", "What parts are"
    MOVED = "moved", "Moved"
    FITTED = "fitted", "Fitted and taken off"
    VEHICLES = "vehicles", "How far the vehicles are"
    ANSWERS = "answers", "Answers to wants"
    WRITTEN = "written", "Written down besides"


@dataclass(frozen=True, slots=True)
class Deed:
    """One thing that somebody did to a part or a want: in a word or two, and in full."""

    at: dt.datetime
    by: int | None
    sort: str
    words: str
    subject: tuple[type[models.Model], int]


def deeds_of(kind: Kind, span: Span, most: int) -> list[Deed]:
    """Return the newest deeds of the kind, at most ``most``."""
    return list(islice(_READERS[kind](span, most), most))


def _taken_in(span: Span, most: int) -> Iterator[Deed]:
    # Compared so that no index of its own answers: most parts were never split off anything.
    whole = Part.history.alias(lot=Coalesce(F("split_from_id"), Value(0))).filter(lot=0)
    rows = span.of(whole.filter(history_type="+"))
    told = rows.values_list("history_date", "history_user_id", "history_change_reason", "id")
    for at, by, why, key in told[:most]:
        words = why if why and why != "recorded" else "taken in"
        yield Deed(at, by, "taken in", words, (Part, key))


def _identified(span: Span, most: int) -> Iterator[Deed]:
    deeds = [*_said(span, most), *_judged(span, most)]
    return iter(sorted(deeds, key=lambda deed: deed.at, reverse=True))


def _said(span: Span, most: int) -> Iterator[Deed]:
    rows = span.of(Identification.history.filter(history_type="+"))
    rows = rows.exclude(history_change_reason__startswith=TAKEN_OVER)
    told = list(
        rows.values_list("history_date", "history_user_id", "part_id", "component_id")[:most]
    )
    names = _names(Component, {component for *_, component in told})
    for at, by, part, component in told:
        yield Deed(at, by, "said", f"said to be {names.get(component, '?')}", (Part, part))


def _judged(span: Span, most: int) -> Iterator[Deed]:
    rows = span.of(Opinion.history.exclude(history_type="-"))
    rows = rows.exclude(history_change_reason__startswith=TAKEN_OVER)
    columns = ("history_date", "history_user_id", "identification_id", "agrees", "reasons")
    told = list(rows.values_list(*columns)[:most])
    judged = Identification.objects.select_related("component").in_bulk({row[2] for row in told})
    for at, by, key, agrees, reasons in told:
        if (one := judged.get(key)) is not None:
            sort = "agreed" if agrees else "disputed"
            words = f"{sort}: {one.component}" + ("" if agrees else f", “{reasons}”")
            yield Deed(at, by, sort, words, (Part, one.part_id))


def _moved(span: Span, most: int) -> Iterator[Deed]:
    rows = span.of(Part.history.filter(history_change_reason__startswith=f"{Move.IN_HISTORY} "))
    told = rows.values_list("history_date", "history_user_id", "history_change_reason", "id")
    for at, by, why, key in told[:most]:
        yield Deed(at, by, "moved", why, (Part, key))


def _fitted(span: Span, most: int) -> Iterator[Deed]:
    rows = span.of(Fitting.history.filter(state__in=TOLD_STATES).exclude(history_type="-"))
    columns = ("history_date", "history_user_id", "state", "vehicle_id", "part_id")
    told = list(rows.values_list(*columns)[:most])
    names = _names(Vehicle, {row[3] for row in told})
    for at, by, state, vehicle, part in told:
        sort, words = TOLD_STATES[state]
        yield Deed(at, by, sort, f"{words} {names.get(vehicle, '?')}", (Part, part))


def _answered(span: Span, most: int) -> Iterator[Deed]:
    rows = span.of(Answer.history.filter(history_change_reason__in=ANSWERED))
    told = rows.values_list("history_date", "history_user_id", "history_change_reason", "want_id")
    for at, by, why, want in told[:most]:
        # Whoever wrote it is a steward's business, so that no name is read here.
        yield Deed(at, by, why, f"an answer {why}", (Want, want))


def _names(model: type[models.Model], keys: set[int]) -> dict[int, str]:
    return {key: str(row) for key, row in model._default_manager.in_bulk(keys).items()}


_READERS: Mapping[Kind, Callable[[Span, int], Iterator[Deed]]] = {
    Kind.TAKEN_IN: _taken_in,
    Kind.IDENTIFIED: _identified,
    Kind.MOVED: _moved,
    Kind.FITTED: _fitted,
    Kind.ANSWERS: _answered,
}
