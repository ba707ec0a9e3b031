"""Solve systems of least distances between points in time, and explain impossible ones."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

ORIGIN = 0
"""The fixed point that bounds on single days are measured from."""


@dataclass(frozen=True, slots=True)
class Distance:
    """State that point ``end`` lies at least ``least`` days after point ``start``."""

    start: int
    end: int
    least: int
    name: int


def earliest_places(count: int, distances: Sequence[Distance]) -> list[int | None]:
    """Return the least place of every point that has one; ``ORIGIN`` stays at 0.

    The answer is the longest path from the origin (Bellman–Ford: Cormen and others,
    *Introduction to Algorithms*, “Difference constraints and shortest paths”). Distances that
    lead back to the origin are not followed, so the system must be possible otherwise.

    >>> earliest_places(3, [Distance(0, 1, 10, 0), Distance(1, 2, 5, 1)])
    [0, 10, 15]
    """
    places: list[int | None] = [0, *[None] * (count - 1)]
    _settle(places, distances)
    return places


def latest_places(count: int, distances: Sequence[Distance]) -> list[int | None]:
    """Return the greatest place of every point that has one.

    >>> latest_places(3, [Distance(2, 0, -20, 0), Distance(1, 2, 5, 1)])
    [0, 15, 20]
    """
    turned = [Distance(one.end, one.start, one.least, one.name) for one in distances]
    return [None if place is None else -place for place in earliest_places(count, turned)]


def is_possible(count: int, distances: Sequence[Distance]) -> bool:
    """Tell whether some placing of the points keeps all the distances.

    It fails exactly if the distances around some circle add up to more than zero.

    >>> is_possible(3, [Distance(1, 2, 1, 0), Distance(2, 1, 0, 1)])
    False
    """
    if not _agree(count, distances):
        return False
    earliest, latest = earliest_places(count, distances), latest_places(count, distances)
    pairs = zip(earliest, latest, strict=True)
    return all(low is None or high is None or low <= high for low, high in pairs)


def smallest_contradiction(count: int, distances: Sequence[Distance]) -> tuple[Distance, ...]:
    """Return the shortest circle of distances that cannot all be kept.

    Each of its distances is needed: without any one of them, the others can be kept. Walks
    are lengthened by one distance at a time from every point where such a circle could begin,
    so the first that closes is the shortest. The system must be impossible.

    >>> circle = [Distance(1, 2, 1, 0), Distance(2, 1, 0, 1), Distance(0, 1, 7, 2)]
    >>> sorted(one.name for one in smallest_contradiction(3, circle))
    [0, 1]
    """
    leaving = _by_start(distances)
    between = _by_start(_between(distances))
    starts = set() if _agree(count, distances) else _circle_starts(count, distances)
    from_origin, walks = {ORIGIN: 0}, {start: {start: 0} for start in starts}
    for length in range(1, count + 1):
        from_origin = _lengthened(from_origin, leaving)
        if from_origin.get(ORIGIN, 0) > 0:
            return _retraced(ORIGIN, length, leaving)
        walks = {start: _lengthened(walk, between) for start, walk in walks.items()}
        closed = [start for start, walk in walks.items() if walk.get(start, 0) > 0]
        if closed:
            return _retraced(min(closed), length, between)
    raise ValueError("These distances can all be kept, so nothing contradicts.")


def _between(distances: Iterable[Distance]) -> list[Distance]:
    """Pick the distances that do not touch the origin."""
    return [one for one in distances if ORIGIN not in (one.start, one.end)]


def _circle_starts(count: int, distances: Iterable[Distance]) -> set[int]:
    """Pick points so that every circle of positive length away from the origin has one."""
    _, circular = _sorted_edges(count, _between(distances))
    return {one.start for one in circular if one.least > 0}


def _agree(count: int, distances: Iterable[Distance]) -> bool:
    """Tell whether the distances that do not touch the origin can be kept."""
    return _settle([None, *[0] * (count - 1)], _between(distances))


def _settle(places: list[int | None], distances: Iterable[Distance]) -> bool:
    """Push points back until all distances are kept; give up when that goes round in a circle."""
    straight, circular = _sorted_edges(len(places), distances)
    pushed_by: dict[int, int] = {}
    while _push(places, (*straight, *circular), pushed_by):
        if circular and _goes_round(pushed_by):
            return False
    return True


def _push(places: list[int | None], edges: Iterable[Distance], pushed_by: dict[int, int]) -> bool:
    moved = False
    for edge in edges:
        base, place = places[edge.start], places[edge.end]
        if base is not None and (place is None or base + edge.least > place):
            places[edge.end] = base + edge.least
            pushed_by[edge.end] = edge.start
            moved = True
    return moved


def _goes_round(pushed_by: dict[int, int]) -> bool:
    """Tell whether a point was pushed, through others, by itself."""
    seen: dict[int, int] = {}
    for first in pushed_by:
        point = first
        while point in pushed_by and point not in seen:
            seen[point] = first
            point = pushed_by[point]
        if seen.get(point) == first:
            return True
    return False


def _sorted_edges(
    count: int, distances: Iterable[Distance]
) -> tuple[list[Distance], list[Distance]]:
    """Put distances in the order in which days are handed on, so that few rounds are needed.

    Those that lead to the origin are left out. The second list holds those that start at a
    point in a circle or behind one.
    """
    edges = [one for one in distances if one.end != ORIGIN]
    leaving = _by_start(edges)
    waiting = [0] * count
    for edge in edges:
        waiting[edge.end] += 1
    ready = [point for point in range(count) if not waiting[point]]
    for point in ready:
        for edge in leaving[point]:
            waiting[edge.end] -= 1
            if not waiting[edge.end]:
                ready.append(edge.end)
    rest = sorted(set(range(count)) - set(ready))
    straight = [edge for point in ready for edge in leaving[point]]
    return straight, [edge for point in rest for edge in leaving[point]]


def _by_start(distances: Iterable[Distance]) -> dict[int, list[Distance]]:
    leaving = defaultdict(list)
    for one in distances:
        leaving[one.start].append(one)
    return leaving


def _lengthened(walk: dict[int, int], leaving: dict[int, list[Distance]]) -> dict[int, int]:
    longer: dict[int, int] = {}
    for point, total in walk.items():
        for edge in leaving[point]:
            reached = total + edge.least
            if reached > longer.get(edge.end, reached - 1):
                longer[edge.end] = reached
    return longer


def _retraced(start: int, length: int, leaving: dict[int, list[Distance]]) -> tuple[Distance, ...]:
    paths: dict[int, tuple[int, tuple[Distance, ...]]] = {start: (0, ())}
    for _ in range(length):
        longer: dict[int, tuple[int, tuple[Distance, ...]]] = {}
        for point, (total, path) in paths.items():
            for edge in leaving[point]:
                reached = total + edge.least
                if reached > longer.get(edge.end, (reached - 1, ()))[0]:
                    longer[edge.end] = (reached, (*path, edge))
        paths = longer
    return paths[start][1]
