"""Generate collections of parts and vehicles on which planning is measured."""

import random
from collections.abc import Iterator
from dataclasses import dataclass, replace

from catalog.reckoning.assignment import Fit, Mating, Piece, Place, Route, Shop

# For each component: places on a vehicle, and whether a vehicle needs them to be complete.
COMPONENTS = {
    "wheelset": (4, True),
    "journal box": (8, True),
    "brass": (8, True),
    "spring": (8, True),
    "drawhead": (2, True),
    "brake cylinder": (1, True),
    "brake shoe": (8, False),
    "hand wheel": (1, False),
}
SIZED = ("wheelset", "journal box", "brass")
SIZES = ("4x8", "5x9", "5x10")
PIECES_A_VEHICLE = 50


@dataclass(frozen=True, slots=True)
class Recipe:
    """Say how many vehicles to make to how many designs, and how many designs a piece fits.

    ``scarce`` names a component of which only ``share`` of the places could be filled.
    """

    vehicles: int
    designs: int
    fits_a_piece: float
    scarce: str = ""
    share: float = 0.83


def one_component_scarce(vehicles: int) -> Recipe:
    """Return kind A: vehicles of some classes, and plenty of everything but wheelsets."""
    return Recipe(vehicles, min(vehicles, max(4, vehicles // 25)), 2.4, scarce="wheelset")


def compatibility_scarce(vehicles: int) -> Recipe:
    """Return kind B: every vehicle differs, and pieces abound but fit one or two of them."""
    return Recipe(vehicles, vehicles, 1.4)


def collection(recipe: Recipe, seed: int) -> Shop:
    """Return a shop made to a recipe, the same for the same seed."""
    chance = random.Random(seed)
    pieces = list(_pieces(recipe))
    sizes = {piece.key: chance.choice(SIZES) for piece in pieces if piece.component in SIZED}
    return Shop(
        places=tuple(_places(recipe)),
        pieces=tuple(pieces),
        fits=tuple(_fits(recipe, pieces, chance)),
        matings=(
            Mating.by_size("wheelset", "brass", sizes),
            Mating.by_size("brass", "journal box", sizes),
        ),
    )


def with_making(shop: Shop) -> Shop:
    """Return the shop with a pattern for every second component, for all of its places."""
    routes = tuple(
        Route(name, "make", cost=100 + 20 * number, limit=len(shop.places))
        for number, name in enumerate(COMPONENTS)
        if number % 2 == 0
    )
    return replace(shop, routes=routes)


def _places(recipe: Recipe) -> Iterator[Place]:
    for number in range(recipe.vehicles):
        vehicle, design = f"v{number:03}", f"design {number % recipe.designs}"
        for component, (count, is_essential) in COMPONENTS.items():
            for index in range(count):
                yield Place(
                    f"{vehicle}/{component}/{index}",
                    vehicle,
                    component,
                    is_essential=is_essential,
                    corner=_corner(component, index),
                    specification=f"{design}/{component}",
                )


def _corner(component: str, index: int) -> str:
    """Return both ends of an axle for a wheelset, and one end for a box or brass."""
    if component == "wheelset":
        return f"L{index} R{index}"
    return f"{'LR'[index % 2]}{index // 2}" if component in SIZED else ""


def _pieces(recipe: Recipe) -> Iterator[Piece]:
    total = PIECES_A_VEHICLE * recipe.vehicles
    places = {name: count * recipe.vehicles for name, (count, _) in COMPONENTS.items()}
    scarce = {recipe.scarce: round(recipe.share * places[recipe.scarce])} if recipe.scarce else {}
    plenty = (total - sum(scarce.values())) / sum(n for k, n in places.items() if k not in scarce)
    for component, count in places.items():
        for index in range(scarce.get(component, round(count * plenty))):
            yield Piece(f"{component} {index:05}", component)


def _fits(recipe: Recipe, pieces: list[Piece], chance: random.Random) -> Iterator[Fit]:
    density = recipe.fits_a_piece / recipe.designs
    for piece in pieces:
        designs = [n for n in range(recipe.designs) if chance.random() < density]
        for design in designs or [chance.randrange(recipe.designs)]:
            yield Fit(piece.key, f"design {design}/{piece.component}", chance.uniform(0.55, 1))
