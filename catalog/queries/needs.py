"""What a vehicle still needs: each position's state, and the part that would fill it."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from django.urls import reverse

from catalog.models import Fitting, Location, Measurement, Part, Position, Trial, Vehicle
from catalog.queries.candidates import Candidate, Place
from catalog.queries.fit_bench import Bench, lay_out
from catalog.queries.remembered import remembered
from catalog.queries.structures import FROM as STRUCTURE
from catalog.queries.vehicles import completeness_of
from catalog.reckoning.plurals import listed
from catalog.reckoning.section_lining import LININGS
from catalog.reckoning.sharing_out import share_out

# The plan over all vehicles may give its parts to others, and comes to other numbers.
ALONE = "were it alone in the shop"
# What is neither fitted nor free: it is spoken for, and only has to be put on.
SPOKEN_FOR = {"reserved": "reserved", "trial": "on trial"}
BLOCKING = ("repair", "pattern", "nothing")
# All that the needs of a vehicle follow from.
FOLLOWS_FROM = (*STRUCTURE, Vehicle, Part, Location, Measurement, Fitting, Trial)
# More than this many parts for one position are shown on the position's own page.
SHOWN = 3


@dataclass(frozen=True, slots=True)
class PositionNeed:
    """A position of a vehicle, its state, and what is there or would be best.

    ``best`` is the part dealt to this position, so that two positions never count on one piece;
    ``others`` are the next best.
    """

    vehicle: Vehicle
    position: Position
    state: str
    fitting: Fitting | None = None
    best: Candidate | None = None
    others: tuple[Candidate, ...] = ()

    def get_absolute_url(self) -> str:
        return f"{needs_address(self.vehicle.slug)}{self.position.pk}/"

    @property
    def anchor(self) -> str:
        """Return by what a link finds the position within its page."""
        return f"position-{self.position.pk}"

    @property
    def words(self) -> str:
        return LININGS[self.state].words

    @property
    def is_filled(self) -> bool:
        return self.state == "fitted"

    @property
    def is_to_do(self) -> bool:
        """Say whether there is a part to do something with: reserve, try, fit."""
        return self.state not in ("fitted", "pattern", "nothing")

    @property
    def is_blocking(self) -> bool:
        """Say whether the vehicle cannot be finished from what is in hand because of it."""
        return self.position.is_essential and self.state in BLOCKING


@dataclass(frozen=True, slots=True)
class Assembly:
    """The positions of one assembly: those to see to, and those that are done."""

    name: str
    needs: tuple[PositionNeed, ...]

    @property
    def open(self) -> list[PositionNeed]:
        return [need for need in self.needs if not need.is_filled]

    @property
    def filled(self) -> list[PositionNeed]:
        return [need for need in self.needs if need.is_filled]


@dataclass(frozen=True, slots=True)
class StateCount:
    """How many positions are in one state, essential ones apart."""

    state: str
    words: str
    count: int
    essential: int


@dataclass(frozen=True, slots=True)
class VehicleNeeds:
    """All positions of one vehicle; the other vehicles' claims are left to the plan."""

    vehicle: Vehicle
    needs: tuple[PositionNeed, ...]
    counts: tuple[StateCount, ...]
    essential: int
    filled: int
    blocking: int

    def get_absolute_url(self) -> str:
        return needs_address(self.vehicle.slug)

    @property
    def states(self) -> dict[int, str]:
        return {need.position.pk: need.state for need in self.needs}

    @property
    def assemblies(self) -> tuple[Assembly, ...]:
        by_name: dict[str, list[PositionNeed]] = {}
        for need in self.needs:
            by_name.setdefault(need.position.assembly, []).append(need)
        return tuple(Assembly(name, tuple(needs)) for name, needs in by_name.items())

    @property
    def is_complete(self) -> bool:
        return self.essential > 0 and self.filled == self.essential

    @property
    def kept(self) -> str:
        """Say how parts are kept for its essential positions: reserved, on trial, or both."""
        return kept_words(one.state for one in self.counts if one.essential)

    @property
    def _count_kept(self) -> int:
        return sum(one.essential for one in self.counts if one.state in SPOKEN_FOR)

    @property
    def sentence(self) -> str:
        if not self.essential:
            return "No essential positions are recorded."
        return f"{self.filled} of {self.essential} essential positions; {self.outlook}"

    @property
    def outlook(self) -> str:
        """Say what stands between the vehicle and completion, were it alone in the shop."""
        if not self.essential:
            return ""
        if self.is_complete:
            return "complete"
        if self.essential == self.filled + self._count_kept:
            return f"what is {self.kept} fills the rest"
        if not self.blocking:
            return f"what is in hand could fill the rest, {ALONE}"
        return f"{needs_block(self.blocking)}, {ALONE}"


@lru_cache(maxsize=1024)
def needs_address(slug: str) -> str:
    """Return where a vehicle's needs are shown; each position has its page below."""
    return reverse("vehicle-needs", args=[slug])


def needs_of(vehicle: Vehicle, *, for_visitor: bool = False) -> VehicleNeeds:
    """Return what the vehicle needs; a visitor learns states and components, never parts.

    It is reckoned anew only when something that it follows from has changed.
    """
    found = remembered(
        f"needs of {vehicle.pk}",
        FOLLOWS_FROM,
        lambda: needs_of_vehicles([vehicle])[vehicle.pk],
    )
    return replace(found, needs=_for_visitor(found.needs)) if for_visitor else found


def needs_of_shop(vehicles: list[Vehicle]) -> dict[int, VehicleNeeds]:
    """Return what each needs, as ``needs_of_vehicles`` does, reckoned anew only on a change."""
    keys = ",".join(str(vehicle.pk) for vehicle in vehicles)
    return remembered(f"needs of shop {keys}", FOLLOWS_FROM, lambda: needs_of_vehicles(vehicles))


def needs_of_vehicles(
    vehicles: Iterable[Vehicle], *, for_visitor: bool = False
) -> dict[int, VehicleNeeds]:
    """Return what each vehicle needs by its key, in so many queries however many there are."""
    vehicles = list(vehicles)
    return needs_on(lay_out(vehicles), vehicles, for_visitor=for_visitor)


def needs_on(
    bench: Bench, vehicles: Iterable[Vehicle], *, for_visitor: bool = False
) -> dict[int, VehicleNeeds]:
    found = {}
    for vehicle in vehicles:
        needs = _needs_of_places(bench, bench.places[vehicle.pk])
        if for_visitor:
            needs = _for_visitor(needs)
        found[vehicle.pk] = summed_up(vehicle, needs)
    return found


def _for_visitor(needs: Iterable[PositionNeed]) -> tuple[PositionNeed, ...]:
    return tuple(replace(need, fitting=None, best=None, others=()) for need in needs)


def states_of_vehicles(vehicles: Iterable[Vehicle]) -> dict[int, dict[int, str]]:
    """Return the state of each position by vehicle and position, for strips and drawings."""
    return {key: needs.states for key, needs in needs_of_vehicles(vehicles).items()}


def nearest_first(vehicles: Iterable[Vehicle]) -> list[Vehicle]:
    """Return the vehicles with the fewest essential positions unfilled first.

    Those without any essential positions recorded come last.
    """
    by_key = {vehicle.pk: vehicle for vehicle in vehicles}
    complete = completeness_of(by_key.values())
    unfilled = {
        key: (not one.essential, one.essential - one.filled) for key, one in complete.items()
    }
    return sorted(by_key.values(), key=lambda vehicle: unfilled[vehicle.pk])


def summed_up(vehicle: Vehicle, needs: tuple[PositionNeed, ...]) -> VehicleNeeds:
    every = Counter(need.state for need in needs)
    essential = Counter(need.state for need in needs if need.position.is_essential)
    counts = tuple(
        StateCount(state, lining.words, every[state], essential[state])
        for state, lining in LININGS.items()
    )
    return VehicleNeeds(
        vehicle=vehicle,
        needs=needs,
        counts=counts,
        essential=essential.total(),
        filled=essential["fitted"],
        blocking=sum(essential[state] for state in BLOCKING),
    )


def _needs_of_places(bench: Bench, places: tuple[Place, ...]) -> tuple[PositionNeed, ...]:
    candidates = {
        place.position.pk: bench.candidates(place) for place in places if place.fitting is None
    }
    in_order = sorted(
        (place for place in places if place.fitting is None),
        key=lambda place: not place.position.is_essential,
    )
    keys = [place.position.pk for place in in_order]
    dealt = _deal(keys, candidates, "available")
    dealt |= _deal([key for key in keys if key not in dealt], candidates, "repair")
    return tuple(
        PositionNeed(place.vehicle, place.position, place.fitting.state, place.fitting)
        if place.fitting is not None
        else _open(place, candidates[place.position.pk], dealt.get(place.position.pk))
        for place in places
    )


def _deal(
    keys: list[int], candidates: Mapping[int, list[Candidate]], state: str
) -> dict[int, Candidate]:
    """Deal the parts of one state out over the positions, no piece to two of them."""
    of_state = {
        key: {str(c.part.pk): c for c in candidates[key] if c.state == state} for key in keys
    }
    supply = {name: c.part.free for by_name in of_state.values() for name, c in by_name.items()}
    given = share_out({str(key): list(by_name) for key, by_name in of_state.items()}, supply)
    return {int(key): of_state[int(key)][name] for key, name in given.items()}


def _open(place: Place, candidates: list[Candidate], dealt: Candidate | None) -> PositionNeed:
    pattern = next((c for c in candidates if c.state == "pattern"), None)
    best = dealt or pattern
    others = tuple(c for c in candidates if c is not best and c.state != "misfit")[:SHOWN]
    state = best.state if best else "nothing"
    return PositionNeed(place.vehicle, place.position, state, None, best, others)


def kept_words(states: Iterable[str]) -> str:
    """Say how parts are kept for a vehicle: reserved, on trial, or some of each."""
    found = set(states)
    return listed([words for state, words in SPOKEN_FOR.items() if state in found])


def needs_block(count: int) -> str:
    return "1 need blocks it" if count == 1 else f"{count} needs block it"
