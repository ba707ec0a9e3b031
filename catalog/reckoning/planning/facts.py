"""What the planner is told: places to fill, pieces in hand, what fits where, and what mates."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from itertools import permutations

# Effort is counted in tenths of an hour, the finest that people write down.
TENTHS = 10


@dataclass(frozen=True, slots=True)
class Place:
    """Name one position of one vehicle.

    ``corner`` names where the place touches its neighbors, so that mating rules apply between
    them; a place with several neighbors' corners names them all: an axle has ``"L1 R1"``.
    ``specification`` is shared by places that take the same pieces equally well, the same
    position on ten vehicles of a class, say; without one a place is its own specification.

    >>> Place("31/L1/box", "31", "journal box", is_essential=True).kind
    '31/L1/box'
    """

    key: str
    vehicle: str
    component: str
    is_essential: bool
    corner: str = ""
    specification: str = ""

    @property
    def kind(self) -> str:
        """Return the specification, which every place has."""
        return self.specification or self.key


@dataclass(frozen=True, slots=True)
class Piece:
    """Name one part, or a counted lot of like parts, that may be used.

    ``held_for`` keeps it for one vehicle alone; ``came_off`` only prefers that vehicle.
    ``cost`` is the effort, in tenths of an hour, of making one of them ready. A piece that
    ``is_made_to_suit`` takes on whatever size its neighbors have.

    >>> Piece("2026.4.17", "journal box", quantity=3).cost
    0
    """

    key: str
    component: str
    quantity: int = 1
    came_off: str | None = None
    held_for: str | None = None
    cost: int = 0
    is_made_to_suit: bool = False


@dataclass(frozen=True, slots=True)
class Fit:
    """Say that a piece may go to a place, and how probably it is sound there.

    ``place`` is the key of one place or the specification of many. What is not said to fit
    does not fit.

    >>> Fit("2026.4.17", "31/L1/box", 0.97).probability
    0.97
    """

    piece: str
    place: str
    probability: float


@dataclass(frozen=True, slots=True)
class Mating:
    """Say which pieces of two components will not work together where they touch.

    ``conflicts`` holds pairs of sizes, the size of a piece for ``component_a`` first, and
    ``size_of`` gives each piece its size. A piece with no size stands for itself, so that
    without ``size_of`` the pairs are simply pairs of pieces.

    >>> Mating("journal", "brass", frozenset({("a 5x9 axle", "a 4x8 brass")})).size_of
    {}
    """

    component_a: str
    component_b: str
    conflicts: frozenset[tuple[str, str]]
    size_of: Mapping[str, str] = field(default_factory=dict)

    @classmethod
    def by_size(cls, component_a: str, component_b: str, size_of: Mapping[str, str]) -> "Mating":
        """Let pieces mate when they have one size, or when one of them has none.

        >>> sorted(Mating.by_size("axle", "brass", {"a": "5x9", "b": "4x8"}).conflicts)
        [('4x8', '5x9'), ('5x9', '4x8')]
        """
        pairs = frozenset(permutations(sorted(set(size_of.values())), 2))
        return cls(component_a, component_b, pairs, size_of)


@dataclass(frozen=True, slots=True)
class Route:
    """Offer up to ``limit`` new pieces of a component, each for ``cost`` in tenths of an hour.

    ``places`` names the specifications of the places that they can be had for; without any they
    are for all of the component. ``held_for`` offers them to one vehicle alone, and ``way`` tells
    several routes of one component apart.

    >>> Route("drawhead", "make", cost=180, limit=2, way="pattern 7").key
    'make drawhead pattern 7'
    """

    component: str
    kind: str
    cost: int
    limit: int
    places: tuple[str, ...] = ()
    held_for: str | None = None
    way: str = ""

    @property
    def key(self) -> str:
        """Return the key under which a plan sends pieces of this route to places."""
        return " ".join(filter(None, (self.kind, self.component, self.way)))


@dataclass(frozen=True, slots=True)
class Shop:
    """Gather everything a plan is made from.

    ``fixed`` gives the piece at each place already filled. ``ranks`` puts vehicles in order,
    the lowest first and served before all higher ones; vehicles of one rank (all of them, when
    nothing is said) are equal but for their ``weights``, whole numbers that are 1 when not said.

    >>> Shop(places=(), pieces=(), fits=()).fixed
    {}
    """

    places: tuple[Place, ...]
    pieces: tuple[Piece, ...]
    fits: tuple[Fit, ...]
    matings: tuple[Mating, ...] = ()
    fixed: Mapping[str, str] = field(default_factory=dict)
    ranks: Mapping[str, int] = field(default_factory=dict)
    weights: Mapping[str, int] = field(default_factory=dict)
    routes: tuple[Route, ...] = ()

    @property
    def vehicles(self) -> tuple[str, ...]:
        """Return the vehicles, those of the lowest rank first and then by name."""
        names = {place.vehicle for place in self.places}
        return tuple(sorted(names, key=lambda name: (self.ranks.get(name, 0), name)))


def strict_order(vehicles: Iterable[str]) -> dict[str, int]:
    """Return the ranks that serve each vehicle before all that come after it.

    >>> strict_order(["31", "14"])
    {'31': 0, '14': 1}
    """
    return {vehicle: rank for rank, vehicle in enumerate(vehicles)}
