"""What a plan came to, kept as plain words and keys, and read again for its page."""

from collections import Counter
from dataclasses import asdict, dataclass
from typing import Any

from django.urls import reverse

from catalog.models import Plan
from catalog.queries.candidates import Candidate
from catalog.queries.plans import BestUsePlan, VehiclePlan

# The levels of a plan of which less is better.
EFFORTS = ("hours of making and repair",)


@dataclass(frozen=True, slots=True)
class UseLine:
    """A part that the plan sends to a position, and why."""

    position: int
    code: str
    component: str
    part: int
    label: str
    reason: str

    @property
    def part_url(self) -> str:
        return reverse("part-detail", args=[self.part])


@dataclass(frozen=True, slots=True)
class OpenLine:
    """A position that the plan leaves open, and the next best route to it."""

    position: int
    code: str
    component: str
    is_essential: bool
    words: str


@dataclass(frozen=True, slots=True)
class VehicleOutcome:
    """What one vehicle gets, and what stays open on it."""

    vehicle: int
    slug: str
    label: str
    is_complete: bool
    sentence: str
    uses: tuple[UseLine, ...]
    open: tuple[OpenLine, ...]

    @property
    def lacking(self) -> int:
        return sum(line.is_essential for line in self.open)


@dataclass(frozen=True, slots=True)
class LevelLine:
    """One level of the plan in words: 9 complete vehicles, at most 10."""

    name: str
    words: str
    is_proven: bool

    @property
    def best(self) -> str:
        """Say what a proven level means; of effort, less is better."""
        return "no plan needs less" if self.name in EFFORTS else "no plan has more"


@dataclass(frozen=True, slots=True)
class Outcome:
    """All that a plan came to."""

    sentence: str
    is_proven: bool
    levels: tuple[LevelLine, ...]
    vehicles: tuple[VehicleOutcome, ...]

    @property
    def complete(self) -> int:
        return sum(vehicle.is_complete for vehicle in self.vehicles)

    @property
    def uses(self) -> tuple[tuple[VehicleOutcome, UseLine], ...]:
        return tuple((vehicle, use) for vehicle in self.vehicles for use in vehicle.uses)


@dataclass(frozen=True, slots=True)
class Difference:
    """One vehicle under two plans."""

    label: str
    slug: str
    first: VehicleOutcome | None
    second: VehicleOutcome | None

    @property
    def words(self) -> str:
        """Say who gains and who loses by going from the first plan to the second."""
        if self.first is None or self.second is None:
            return "only in the second plan" if self.first is None else "only in the first plan"
        if self.first.is_complete != self.second.is_complete:
            return "gains: it is completed" if self.second.is_complete else "loses: it waits"
        change = self.first.lacking - self.second.lacking
        if change:
            verb = "gains" if change > 0 else "loses"
            return f"{verb} {abs(change)} essential position{'' if abs(change) == 1 else 's'}"
        same = Counter(use.part for use in self.first.uses) == Counter(
            use.part for use in self.second.uses
        )
        return "the same" if same else "as complete, with other parts"


def as_record(best: BestUsePlan) -> dict[str, Any]:
    """Return the outcome as it is kept with the plan."""
    levels = (LevelLine(one.name, one.sentence(), one.is_proven) for one in best.levels)
    vehicles = tuple(_vehicle(one) for one in best.vehicles)
    return asdict(Outcome(best.sentence, best.is_proven, tuple(levels), vehicles))


def outcome_of(plan: Plan) -> Outcome | None:
    """Return what a plan came to, so far as it has been worked out."""
    told = plan.outcome
    if not told:
        return None
    return Outcome(
        told["sentence"],
        told["is_proven"],
        tuple(LevelLine(**line) for line in told["levels"]),
        tuple(_read_vehicle(line) for line in told["vehicles"]),
    )


def compared(first: Outcome, second: Outcome) -> list[Difference]:
    """Return each vehicle under both plans, in the order of the first."""
    ones = {vehicle.vehicle: vehicle for vehicle in first.vehicles}
    others = {vehicle.vehicle: vehicle for vehicle in second.vehicles}
    return [
        Difference(vehicle.label, vehicle.slug, ones.get(key), others.get(key))
        for key, vehicle in {**others, **ones}.items()
    ]


def _vehicle(one: VehiclePlan) -> VehicleOutcome:
    return VehicleOutcome(
        vehicle=one.vehicle.pk,
        slug=one.vehicle.slug,
        label=str(one.vehicle),
        is_complete=one.is_complete,
        sentence=one.sentence,
        uses=tuple(
            UseLine(
                use.position.pk,
                use.position.code,
                str(use.position.component),
                use.candidate.part.pk,
                use.candidate.part.label,
                _reason(use.candidate),
            )
            for use in one.uses
        ),
        open=tuple(
            OpenLine(
                left.position.pk,
                left.position.code,
                str(left.position.component),
                left.position.is_essential,
                left.words + (f": {left.route.part.label}" if left.route else ""),
            )
            for left in one.open
        ),
    )


def _reason(candidate: Candidate) -> str:
    if candidate.state != "repair":
        return candidate.reason
    defect = f" ({candidate.part.defect})" if candidate.part.defect else ""
    return f"Repair it first{defect}. {candidate.reason}"


def _read_vehicle(told: dict[str, Any]) -> VehicleOutcome:
    uses = tuple(UseLine(**line) for line in told["uses"])
    still_open = tuple(OpenLine(**line) for line in told["open"])
    return VehicleOutcome(**{**told, "uses": uses, "open": still_open})
