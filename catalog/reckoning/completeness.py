"""How many places were filled at each time, from what was put in and taken out."""

import datetime as dt
from collections.abc import Collection, Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Change:
    """Say that from this day on a place was filled by a fitting, or no longer.

    >>> Change(dt.date(2026, 4, 1), place=1, fitting=7, is_filled=True).is_filled
    True
    """

    on: dt.date
    place: int
    fitting: int
    is_filled: bool


@dataclass(frozen=True, slots=True)
class Step:
    """Hold how many places were filled from a day on, until the next step.

    >>> Step(dt.date(2026, 4, 1), 3).filled
    3
    """

    on: dt.date
    filled: int


def steps(changes: Iterable[Change], places: Collection[int]) -> tuple[Step, ...]:
    """Return the days on which the number of filled ``places`` changed, with the number then.

    ``changes`` come in the order in which they happened; other places are left out. A place
    counts once however many fittings it has had. Several changes of a day make one step, or
    none when the number is the same as before.

    >>> day = dt.date(2026, 4, 1)
    >>> steps([Change(day, 1, 7, True), Change(day, 2, 8, True)], {1, 2})
    (Step(on=datetime.date(2026, 4, 1), filled=2),)
    """
    held: dict[int, set[int]] = {place: set() for place in places}
    by_day: dict[dt.date, int] = {}
    for change in changes:
        if change.place not in held:
            continue
        if change.is_filled:
            held[change.place].add(change.fitting)
        else:
            held[change.place].discard(change.fitting)
        by_day[change.on] = sum(map(bool, held.values()))
    found: list[Step] = []
    for day, filled in sorted(by_day.items()):
        if filled != (found[-1].filled if found else 0):
            found.append(Step(day, filled))
    return tuple(found)
