"""Join names that are said, pair by pair, to belong together."""

from collections.abc import Iterable


def joined(pairs: Iterable[tuple[str, str]]) -> dict[str, str]:
    """Return for each name the first, in order, of all the names it is joined with.

    Assumption: belonging together is transitive. Method: union by path halving, as in
    Cormen and others, *Introduction to Algorithms*, chapter on disjoint sets (from memory).

    >>> joined([("brass", "axle"), ("box", "brass"), ("hook", "hook")])
    {'brass': 'axle', 'axle': 'axle', 'box': 'axle', 'hook': 'hook'}
    """
    parent: dict[str, str] = {}
    for first, second in pairs:
        a, b = _root(parent, first), _root(parent, second)
        parent[max(a, b)] = min(a, b)
    return {name: _root(parent, name) for name in parent}


def _root(parent: dict[str, str], name: str) -> str:
    parent.setdefault(name, name)
    while parent[name] != name:
        parent[name] = parent[parent[name]]
        name = parent[name]
    return name
