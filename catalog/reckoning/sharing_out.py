"""Share pieces out among places, so that as many places as possible get one."""

from collections.abc import Mapping, Sequence


def share_out(wishes: Mapping[str, Sequence[str]], supply: Mapping[str, int]) -> dict[str, str]:
    """Return a piece for each place that can have one, no piece more often than there is.

    ``wishes`` lists what would do at each place, the best first; places named earlier are served
    before later ones. No mating between places is looked at: the planner does that.
    Method: maximum bipartite matching by augmenting paths (H. W. Kuhn, *The Hungarian method for
    the assignment problem*, 1955), in which a place that has a piece never loses it again, though
    it may be given another; cost at most places times wishes.

    >>> share_out({"L1": ["a", "b"], "R1": ["a"]}, {"a": 1, "b": 1})
    {'L1': 'b', 'R1': 'a'}
    """
    given: dict[str, str] = {}
    holders: dict[str, list[str]] = {piece: [] for piece in supply}
    for place in wishes:
        _give(place, wishes, supply, given, holders, seen=set())
    return given


def _give(
    place: str,
    wishes: Mapping[str, Sequence[str]],
    supply: Mapping[str, int],
    given: dict[str, str],
    holders: dict[str, list[str]],
    seen: set[str],
) -> bool:
    wished = [piece for piece in wishes[place] if piece in holders and piece not in seen]
    seen.update(wished)
    for piece in wished:
        if len(holders[piece]) < supply[piece]:
            _hold(place, piece, given, holders)
            return True
    for piece in wished:
        for other in list(holders[piece]):
            if _give(other, wishes, supply, given, holders, seen):
                _hold(place, piece, given, holders)
                return True
    return False


def _hold(place: str, piece: str, given: dict[str, str], holders: dict[str, list[str]]) -> None:
    if place in given:
        holders[given[place]].remove(place)
    given[place] = piece
    holders[piece].append(place)
