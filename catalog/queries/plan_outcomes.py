"""What a plan came to, read from the plain words and keys that are kept with it."""

from collections import Counter
from dataclasses import dataclass
from typing import Any

from django.db.models import Q
from django.urls import reverse

from catalog.models import Hazard, Plan
from catalog.reckoning.efforts import Effort, EffortSum, hours_in_words, sum_of
from catalog.reckoning.plurals import counted

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
    effort: Effort | None = None

    @property
    def part_url(self) -> str:
        return reverse("part-detail", args=[self.part])


@dataclass(frozen=True, slots=True)
class MakeLine:
    """A new piece that the plan counts on, and the pattern in hand that it is made from, if any.

    ``words`` stand before the ``label`` of the pattern, or say what else it is made after.
    """

    position: int
    code: str
    component: str
    words: str
    effort: Effort
    part: int | None = None
    label: str = ""
    note: str = ""
    terms: str = ""
    is_on_loan: bool = False
    is_limited: bool = False

    @property
    def part_url(self) -> str:
        return reverse("part-detail", args=[self.part]) if self.part else ""

    @property
    def sentence(self) -> str:
        """Say what to do and how long it takes: make from pattern 2026.1.14, 18 hours."""
        return f"{self.words}{f' {self.label}' if self.label else ''}, {self.effort.words}"


@dataclass(frozen=True, slots=True)
class ToMake:
    """All new pieces of one component that are made in one way, and where they go."""

    line: MakeLine
    where: tuple[str, ...]
    effort: EffortSum

    @property
    def counted(self) -> str:
        return counted(len(self.where), self.line.component)

    @property
    def is_for_more(self) -> bool:
        return len(self.where) > 1


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
    makes: tuple[MakeLine, ...] = ()

    @property
    def lacking(self) -> int:
        return sum(line.is_essential for line in self.open)

    @property
    def efforts(self) -> list[Effort]:
        repairs = [use.effort for use in self.uses if use.effort is not None]
        return [*repairs, *(make.effort for make in self.makes)]

    @property
    def effort(self) -> EffortSum:
        return sum_of(self.efforts)

    @property
    def has(self) -> Counter[object]:
        """Return what it gets: parts by their keys, and new pieces by their component."""
        return Counter([*(use.part for use in self.uses), *(one.component for one in self.makes)])


@dataclass(frozen=True, slots=True)
class LevelLine:
    """One level of the plan in words: 9 complete vehicles, at most 10."""

    name: str
    words: str
    is_proven: bool
    is_weighed: bool = False

    @property
    def best(self) -> str:
        """Say what a proven level means; of effort, less is better."""
        if self.is_weighed:
            return "no plan is worth more"
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

    @property
    def makes(self) -> tuple[tuple[VehicleOutcome, MakeLine], ...]:
        return tuple((vehicle, make) for vehicle in self.vehicles for make in vehicle.makes)

    @property
    def repairs(self) -> tuple[tuple[VehicleOutcome, UseLine], ...]:
        return tuple((vehicle, use) for vehicle, use in self.uses if use.effort is not None)

    @property
    def effort(self) -> EffortSum:
        return sum_of(effort for vehicle in self.vehicles for effort in vehicle.efforts)

    @property
    def to_make(self) -> tuple[ToMake, ...]:
        """Return what is to be made, like pieces together: the order for the foundry."""
        alike: dict[object, list[tuple[str, MakeLine]]] = {}
        for vehicle, line in self.makes:
            where = f"{line.code} of {vehicle.label}"
            alike.setdefault((line.component, line.words, line.part), []).append((where, line))
        return tuple(
            ToMake(
                lines[0][1],
                tuple(where for where, _ in lines),
                sum_of(line.effort for _, line in lines),
            )
            for lines in alike.values()
        )


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
        if self.first.has == self.second.has:
            return "the same"
        more = self.second.effort.tenths - self.first.effort.tenths
        return f"as complete, with {_more_or_less(more) or 'other parts'}"


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


def still_to_reserve(plan: Plan, outcome: Outcome) -> tuple[tuple[VehicleOutcome, UseLine], ...]:
    """Return what the plan sends, without what stands where it was sent since it was applied."""
    there = set(plan.fittings.active().values_list("part", "vehicle", "position"))
    return tuple(
        (vehicle, use)
        for vehicle, use in outcome.uses
        if (use.part, vehicle.vehicle, use.position) not in there
    )


def cautions_for(outcome: Outcome) -> tuple[Hazard, ...]:
    """Return the hazards of all that is to be made or repaired, and of the patterns it is after."""
    works: list[UseLine | MakeLine] = [line for _, line in outcome.makes]
    works += [line for _, line in outcome.repairs]
    parts = {line.part for line in works if line.part is not None}
    places = {line.position for line in works}
    concerned = Q(components__positions__in=places) | Q(parts__in=parts)
    return tuple(Hazard.objects.filter(concerned).distinct()) if places else ()


def compared(first: Outcome, second: Outcome) -> list[Difference]:
    """Return each vehicle under both plans, in the order of the first."""
    ones = {vehicle.vehicle: vehicle for vehicle in first.vehicles}
    others = {vehicle.vehicle: vehicle for vehicle in second.vehicles}
    return [
        Difference(vehicle.label, vehicle.slug, ones.get(key), others.get(key))
        for key, vehicle in {**others, **ones}.items()
    ]


def _read_vehicle(told: dict[str, Any]) -> VehicleOutcome:
    # Plans that were made before works had their hours in them say nothing of those.
    lines = {
        "uses": tuple(UseLine(**_with_effort(line)) for line in told["uses"]),
        "open": tuple(OpenLine(**line) for line in told["open"]),
        "makes": tuple(MakeLine(**_with_effort(line)) for line in told.get("makes", ())),
    }
    return VehicleOutcome(**{**told, **lines})


def _with_effort(line: dict[str, Any]) -> dict[str, Any]:
    effort = line.get("effort")
    return {**line, "effort": Effort(**effort) if effort else None}


def _more_or_less(tenths: int) -> str:
    how = "more" if tenths > 0 else "less"
    return f"{hours_in_words(abs(tenths))} {how} of making and repair" if tenths else ""
