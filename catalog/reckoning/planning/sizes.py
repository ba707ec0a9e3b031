"""Read mating rules as sizes: pieces that clash with the same others are one size."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalog.reckoning.planning.facts import Mating, Shop
from catalog.reckoning.planning.unions import joined

# The size of a piece that clashes with nothing, and of a place that may stay empty.
ANY = ""

# The size of new pieces where none in hand says what the sizes are.
NEW = "new"

Pair = tuple[str, str]
Clashes = Mapping[Pair, frozenset[Pair]]


@dataclass(frozen=True, slots=True)
class Sizes:
    """Give every piece its size within each family of components that mate.

    In the families of ``by_size`` two pieces mate exactly when their sizes are equal. In the
    others ``clashes`` gives, for two components that touch, the pairs of sizes that do not mate.

    >>> Sizes({}, {}, {}, {}, frozenset()).of("2026.4.17", "drawhead")
    ''
    """

    family_of: Mapping[str, str]
    size_of: Mapping[Pair, str]
    sizes_in: Mapping[str, tuple[str, ...]]
    clashes: Clashes
    by_size: frozenset[str]

    def of(self, piece: str, component: str) -> str:
        """Return the size that a piece has where it serves as this component."""
        return self.size_of.get((self.family_of.get(component, ""), piece), ANY)

    def known_for(self, component: str) -> tuple[str, ...]:
        """Return the sizes in which a component's family comes, or ``ANY`` alone."""
        return self.sizes_in.get(self.family_of.get(component, ""), (ANY,))

    def may_touch(self, component_a: str, size_a: str, component_b: str, size_b: str) -> bool:
        """Say whether pieces of these sizes mate where their two places touch."""
        return (size_a, size_b) not in self.clashes.get((component_a, component_b), frozenset())


def read_sizes(shop: Shop) -> Sizes:
    """Return the sizes that the mating rules of a shop amount to.

    Two pieces have one size when every rule treats them alike. Where the sizes that mate fall
    into blocks (any two of a block mate, no two of different blocks do), each block is one
    size, which is how axles and brasses usually come.

    >>> read_sizes(Shop((), (), ())).by_size
    frozenset()
    """
    families = joined((rule.component_a, rule.component_b) for rule in shop.matings)
    serving = _pieces_serving(shop)
    read: dict[str, _Family] = {}
    for family in sorted(set(families.values())):
        rules = [rule for rule in shop.matings if families[rule.component_a] == family]
        read[family] = _Family.read(rules, serving)
    return Sizes(
        family_of=families,
        size_of={
            (name, piece): size for name, f in read.items() for piece, size in f.size_of.items()
        },
        sizes_in={name: f.sizes for name, f in read.items()},
        clashes={pair: clash for f in read.values() for pair, clash in f.clashes.items()},
        by_size=frozenset(name for name, f in read.items() if f.is_by_size),
    )


def _pieces_serving(shop: Shop) -> dict[str, set[str]]:
    """Return, for each component, the pieces that may serve or already serve as it."""
    component_of = {name: p.component for p in shop.places for name in (p.key, p.kind)}
    serving: dict[str, set[str]] = defaultdict(set)
    for fit in shop.fits:
        if fit.place in component_of:
            serving[component_of[fit.place]].add(fit.piece)
    for place, piece in shop.fixed.items():
        serving[component_of[place]].add(piece)
    return serving


@dataclass(frozen=True, slots=True)
class _Family:
    """Hold the sizes of components joined by rules."""

    size_of: Mapping[str, str]
    sizes: tuple[str, ...]
    clashes: Clashes
    is_by_size: bool

    @classmethod
    def read(cls, rules: Iterable[Mating], serving: Mapping[str, set[str]]) -> "_Family":
        """Return sizes in blocks where the rules allow it, and else as the rules give them."""
        rules = list(rules)
        size_of = _alike(rules, serving)
        pairs = _pairs_of_sizes(rules, serving, size_of)
        clashes = _clashes(rules, size_of, pairs)
        blocks = _blocks(pairs, clashes, set(size_of.values()))
        if blocks is None:
            return cls(size_of, tuple(sorted(set(size_of.values()))) or (NEW,), clashes, False)
        names = tuple(sorted(set(blocks.values()))) or (NEW,)
        unequal = frozenset((a, b) for a in names for b in names if a != b)
        return cls(
            size_of={piece: blocks[size] for piece, size in size_of.items()},
            sizes=names,
            clashes=dict.fromkeys(pairs, unequal),
            is_by_size=True,
        )


def _alike(rules: list[Mating], serving: Mapping[str, set[str]]) -> dict[str, str]:
    """Return, for pieces that clash at all, the first key of those that clash alike."""
    pieces = sorted(
        {p for r in rules for c in (r.component_a, r.component_b) for p in serving.get(c, ())}
    )
    rows: list[dict[str, frozenset[str]]] = []
    for rule in rules:
        present = {rule.size_of.get(piece, piece) for piece in pieces}
        pairs = [(a, b) for a, b in rule.conflicts if a in present and b in present]
        rows += [_row_of_each(pairs), _row_of_each((b, a) for a, b in pairs)]
    named: dict[tuple[frozenset[str], ...], str] = {}
    size_of = {}
    for piece in pieces:
        keys = [rules[side // 2].size_of.get(piece, piece) for side in range(len(rows))]
        row = tuple(row.get(key, frozenset()) for row, key in zip(rows, keys, strict=True))
        if any(row):
            size_of[piece] = named.setdefault(row, piece)
    return size_of


def _row_of_each(pairs: Iterable[Pair]) -> dict[str, frozenset[str]]:
    rows: dict[str, set[str]] = defaultdict(set)
    for first, second in pairs:
        rows[first].add(second)
    return {first: frozenset(seconds) for first, seconds in rows.items()}


def _pairs_of_sizes(
    rules: list[Mating], serving: Mapping[str, set[str]], size_of: Mapping[str, str]
) -> dict[Pair, set[Pair]]:
    """Return, for components under a rule (either first), the pairs of sizes they come in."""
    comes_in = {
        component: {size_of[piece] for piece in serving.get(component, ()) if piece in size_of}
        for rule in rules
        for component in (rule.component_a, rule.component_b)
    }
    both_ways = [(r.component_a, r.component_b) for r in rules]
    both_ways += [(b, a) for a, b in both_ways]
    return {(a, b): {(i, j) for i in comes_in[a] for j in comes_in[b]} for a, b in both_ways}


def _clashes(
    rules: list[Mating], size_of: Mapping[str, str], pairs: Mapping[Pair, set[Pair]]
) -> dict[Pair, frozenset[Pair]]:
    """Return, for components under a rule (either first), the pairs of sizes that clash."""
    found: dict[Pair, set[Pair]] = {pair: set() for pair in pairs}
    for rule in rules:
        forward = (rule.component_a, rule.component_b)
        for i, j in pairs[forward]:
            # Every piece of a size clashes alike, so the piece that names it speaks for all.
            if (rule.size_of.get(i, i), rule.size_of.get(j, j)) in rule.conflicts:
                found[forward].add((i, j))
                found[forward[::-1]].add((j, i))
    return {pair: frozenset(clash) for pair, clash in found.items()}


def _blocks(
    pairs: Mapping[Pair, set[Pair]], clashes: Clashes, sizes: set[str]
) -> dict[str, str] | None:
    """Return the block of each size when mating falls into blocks, and else nothing."""
    mates = {pair for both, all_pairs in pairs.items() for pair in all_pairs - clashes[both]}
    blocks = joined([*mates, *((size, size) for size in sizes)])
    is_sound = all(blocks[i] != blocks[j] for clash in clashes.values() for i, j in clash)
    return blocks if is_sound else None
