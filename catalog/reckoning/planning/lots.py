"""Gather interchangeable pieces into lots, and say where each lot may flow."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from catalog.reckoning.planning.facts import Piece, Shop
from catalog.reckoning.planning.sizes import ANY, Sizes

# A specification and a size: whatever flows into a hub may go wherever the hub is drawn on.
Hub = tuple[str, str]

# Probabilities count to the thousandth, finer than anyone can measure them.
SOUND = 1000


@dataclass(frozen=True, slots=True)
class Lot:
    """Stand for pieces that the levels in hand cannot tell apart.

    ``hubs`` maps the hubs that the pieces may flow into to thousandths of a sound fit.

    >>> Lot(("a", "b"), 2, {("box", ""): 970}).held_for is None
    True
    """

    pieces: tuple[str, ...]
    quantity: int
    hubs: Mapping[Hub, int]
    came_off: str | None = None
    held_for: str | None = None
    cost: int = 0


def free_quantities(shop: Shop) -> dict[str, int]:
    """Return how many of each piece are left when what is fixed has taken its share.

    >>> free_quantities(Shop((), (Piece("a", "spring", 3),), (), fixed={"31/s1": "a"}))
    {'a': 2}
    """
    used = Counter(shop.fixed.values())
    return {piece.key: piece.quantity - used[piece.key] for piece in shop.pieces}


def gather_lots(shop: Shop, sizes: Sizes, *, is_fine: bool) -> tuple[Lot, ...]:
    """Return the lots, told apart by probability, origin, and cost only when ``is_fine``.

    Complete vehicles and filled places ask only *whether* a piece fits, so that far fewer
    lots are enough to count them; what is ready is told from what takes work at a cost of one.

    >>> from catalog.reckoning.planning.sizes import read_sizes
    >>> shop = Shop((), (Piece("a", "spring"), Piece("b", "spring")), ())
    >>> gather_lots(shop, read_sizes(shop), is_fine=False)
    ()
    """
    free, hubs = free_quantities(shop), _hubs_of_pieces(shop, sizes, is_fine=is_fine)
    alike: dict[object, list[Piece]] = defaultdict(list)
    for piece in sorted(shop.pieces, key=lambda piece: piece.key):
        if free[piece.key] > 0 and piece.key in hubs:
            told_apart = (piece.came_off, piece.cost) if is_fine else bool(piece.cost)
            # Pieces made to suit are counted by themselves, to say how many are wanted.
            own = piece.key if piece.is_made_to_suit else ""
            row = tuple(sorted(hubs[piece.key].items()))
            alike[row, piece.held_for, told_apart, own].append(piece)
    return tuple(_lot(pieces, free, hubs, is_fine=is_fine) for pieces in alike.values())


def _lot(
    pieces: list[Piece],
    free: Mapping[str, int],
    hubs: Mapping[str, dict[Hub, int]],
    *,
    is_fine: bool,
) -> Lot:
    first = pieces[0]
    return Lot(
        pieces=tuple(piece.key for piece in pieces),
        quantity=sum(free[piece.key] for piece in pieces),
        hubs=hubs[first.key],
        came_off=first.came_off if is_fine else None,
        held_for=first.held_for,
        cost=first.cost if is_fine else bool(first.cost),
    )


def _hubs_of_pieces(shop: Shop, sizes: Sizes, *, is_fine: bool) -> dict[str, dict[Hub, int]]:
    component_of = {place.kind: place.component for place in shop.places}
    pieces = {piece.key: piece for piece in shop.pieces}
    hubs: dict[str, dict[Hub, int]] = defaultdict(dict)
    for fit in shop.fits:
        thousandths = round(fit.probability * SOUND) if is_fine else 0
        for size in _sizes_taken(pieces[fit.piece], component_of[fit.place], sizes):
            hubs[fit.piece][fit.place, size] = thousandths
    return hubs


def _sizes_taken(piece: Piece, component: str, sizes: Sizes) -> Iterator[str]:
    """Yield the sizes as which a piece may serve: its own, or all when it clashes with none."""
    own = sizes.of(piece.key, component)
    if own != ANY:
        yield own
        return
    if sizes.family_of.get(component) in sizes.by_size:
        yield from sizes.known_for(component)
    if not piece.is_made_to_suit or sizes.family_of.get(component) not in sizes.by_size:
        yield ANY
