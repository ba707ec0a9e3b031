"""Reason about events whose days are only known within bounds."""

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from catalog.reckoning.difference_constraints import (
    ORIGIN,
    Distance,
    earliest_places,
    is_possible,
    latest_places,
    smallest_contradiction,
)

_MOST_CONTRADICTIONS = 10


@dataclass(frozen=True, slots=True)
class DatedEvent:
    """Hold an event that happened on one day from ``earliest`` to ``latest``, with its source.

    A bound that is ``None`` is not known.
    """

    key: str
    earliest: dt.date | None
    latest: dt.date | None
    label: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Order:
    """State that the event ``after`` came at least ``least_days`` after the event ``before``.

    A negative ``least_days`` turns it into a limit: ``after`` came at most so many days before.
    """

    before: str
    after: str
    least_days: int = 0
    label: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Statement:
    """Hold one of the statements that a contradiction rests on, in words, with its source.

    ``keys`` are those of the event it dates, or of the two events it puts in order.
    """

    keys: tuple[str, ...]
    words: str
    source: str = ""

    def __str__(self) -> str:
        return f"{self.words} ({self.source})" if self.source else self.words


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Hold statements of which at least one must be wrong; without any one, the rest can hold."""

    statements: tuple[Statement, ...]

    def in_words(self) -> str:
        """Say what cannot be, naming each statement and its source.

        >>> Contradiction((Statement(("a",), "built 1899"), Statement(("b",), "sold 1898")))\
.in_words()
        'These cannot all be true: built 1899; sold 1898.'
        """
        return f"These cannot all be true: {'; '.join(map(str, self.statements))}."


@dataclass(frozen=True, slots=True)
class Tightened:
    """Hold the events with the bounds that follow from all statements together.

    If there are ``contradictions``, the events keep the bounds that they came with.
    """

    events: tuple[DatedEvent, ...]
    contradictions: tuple[Contradiction, ...] = ()

    def __getitem__(self, key: str) -> DatedEvent:
        return next(event for event in self.events if event.key == key)


def tighten(events: Iterable[DatedEvent], orders: Iterable[Order]) -> Tightened:
    """Return the closest bounds that bounds and orders allow, or what contradicts.

    Every statement is a difference constraint x_j − x_i ≥ w, solved by longest paths; a circle
    of positive length is a contradiction. Of several contradictions, each is reported that
    shares no bound and no order with a smaller one, up to ten.

    >>> built = DatedEvent("built", dt.date(1899, 5, 1), None, "built")
    >>> sold = DatedEvent("sold", None, dt.date(1899, 12, 31), "sold")
    >>> tighten([built, sold], [Order("built", "sold")])["built"].latest
    datetime.date(1899, 12, 31)
    """
    given, ordered = tuple(events), tuple(orders)
    distances = _distances(given, ordered)
    count = len(given) + 1
    contradictions: list[Contradiction] = []
    while not is_possible(count, distances) and len(contradictions) < _MOST_CONTRADICTIONS:
        circle = smallest_contradiction(count, distances)
        contradictions.append(Contradiction(_statements(circle, given, ordered)))
        distances = [one for one in distances if one not in circle]
    if contradictions:
        return Tightened(given, tuple(contradictions))
    earliest, latest = earliest_places(count, distances), latest_places(count, distances)
    return Tightened(
        tuple(
            replace(event, earliest=_day(earliest[place]), latest=_day(latest[place]))
            for place, event in enumerate(given, 1)
        )
    )


def _distances(events: Sequence[DatedEvent], orders: Sequence[Order]) -> list[Distance]:
    """Turn statements into distances; the name says whose: events first, then orders."""
    places = {event.key: place for place, event in enumerate(events, 1)}
    if len(places) < len(events):
        raise ValueError("Two events have the same key.")
    distances = []
    for place, event in enumerate(events, 1):
        if event.earliest:
            distances.append(Distance(ORIGIN, place, event.earliest.toordinal(), place))
        if event.latest:
            distances.append(Distance(place, ORIGIN, -event.latest.toordinal(), place))
    for name, order in enumerate(orders, len(events) + 1):
        start, end = places[order.before], places[order.after]
        distances.append(Distance(start, end, order.least_days, name))
    return distances


def _statements(
    circle: Sequence[Distance], events: Sequence[DatedEvent], orders: Sequence[Order]
) -> tuple[Statement, ...]:
    by_name: dict[int, list[Distance]] = {}
    for distance in circle:
        by_name.setdefault(distance.name, []).append(distance)
    return tuple(
        _dated(events[name - 1], used)
        if name <= len(events)
        else _ordered(orders[name - len(events) - 1], events)
        for name, used in by_name.items()
    )


def _dated(event: DatedEvent, used: Sequence[Distance]) -> Statement:
    """Say only the bound that the contradiction rests on."""
    bounds = [
        f"not before {day_words(event.earliest)}"
        if one.start == ORIGIN
        else f"not after {day_words(event.latest)}"
        for one in used
    ]
    return Statement((event.key,), f"{_name(event)}, {' and '.join(bounds)}", event.source)


def _ordered(order: Order, events: Sequence[DatedEvent]) -> Statement:
    names = {event.key: f"“{_name(event)}”" for event in events}
    before, after, days = names[order.before], names[order.after], order.least_days
    words = f"{before} came {_at_least(days)}before {after}"
    if days < 0:
        words = f"{before} came at most {-days} days after {after}"
    return Statement((order.before, order.after), order.label or words, order.source)


def _at_least(days: int) -> str:
    if not days:
        return ""
    return "at least 1 day " if days == 1 else f"at least {days} days "


def _name(event: DatedEvent) -> str:
    return event.label or event.key


def day_words(day: dt.date | None) -> str:
    """Say a day, or that it is not known.

    >>> day_words(dt.date(1881, 6, 14))
    '14 June 1881'
    """
    return f"{day.day} {day:%B} {day.year}" if day else "an unknown day"


def _day(ordinal: int | None) -> dt.date | None:
    """Return the day, or nothing for one outside the calendar, where no bound helps."""
    if ordinal is None or not 1 <= ordinal <= dt.date.max.toordinal():
        return None
    return dt.date.fromordinal(ordinal)
