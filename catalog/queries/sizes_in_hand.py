"""The sizes of a component's pieces in hand, laid out along a rule beside the limits that hold."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import compress

import numpy as np
from numpy.typing import NDArray

from catalog.models import Characteristic, Component, Measurement, Part, Specification
from catalog.models.parts import part_label
from catalog.queries.fit_facts import readings_of
from catalog.queries.supply import part_address
from catalog.reckoning.conformance import FITS_AT_LEAST, MISFIT_AT_MOST
from catalog.reckoning.fit_probabilities import conformance_probabilities
from catalog.reckoning.uncertainty import Measured

# So many dots fit beside one another at the width of a phone.
COLUMNS = 40
LISTED = 100


@dataclass(frozen=True, slots=True)
class Limits:
    """Limits of a class, position or vehicle in mm; nan where an end is open."""

    owner: str
    lower: float
    upper: float
    least: float
    greatest: float

    @property
    def is_wider_when_worn(self) -> bool:
        return (self.least, self.greatest) != (self.lower, self.upper)


@dataclass(frozen=True, slots=True)
class Sized:
    """One part with what it measures, and whose limits it keeps, for certain or perhaps."""

    label: str
    url: str
    measured: Measured
    keeps: tuple[str, ...]
    may_keep: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Spread:
    """One characteristic over all pieces in hand, the smallest first, and its rule in mm."""

    characteristic: Characteristic
    limits: tuple[Limits, ...]
    sized: tuple[Sized, ...]
    start: float
    span: float

    def place(self, mm: float) -> float:
        """Return where along the rule a size stands, as a share of its length."""
        return (mm - self.start) / self.span

    @property
    def counts(self) -> tuple[int, ...]:
        """Return how many pieces stand in each of the columns of the rule."""
        places = [int(self.place(one.measured.value) * COLUMNS) for one in self.sized]
        return tuple(places.count(column) for column in range(COLUMNS))

    @property
    def listed(self) -> tuple[Sized, ...]:
        return self.sized[:LISTED]

    @property
    def more(self) -> int:
        return len(self.sized) - len(self.listed)

    def within(self, owner: str) -> int:
        return sum(owner in one.keeps for one in self.sized)

    def doubtful(self, owner: str) -> int:
        return sum(owner in one.may_keep for one in self.sized)


def sizes_in_hand(component: Component) -> tuple[Spread, ...]:
    """Return the sizes of all parts that are measured at the component's characteristics."""
    characteristics = list(component.characteristics.order_by("sequence", "pk"))
    labels = _parts_measured_at(characteristics)
    readings = readings_of(labels)
    limits = _limits_of(characteristics)
    return tuple(
        _spread(
            one,
            limits.get(one.pk, []),
            {pk: found[one.pk] for pk, found in readings.by_part.items() if one.pk in found},
            labels,
        )
        for one in characteristics
    )


def _parts_measured_at(characteristics: Sequence[Characteristic]) -> dict[int, str]:
    """Return what the parts are called that are measured at any of these."""
    measured = Measurement.objects.kept().filter(characteristic__in=characteristics)
    rows = Part.objects.kept().filter(pk__in=measured.values("part"))
    told = rows.order_by().values_list("pk", "number", "tag")
    return {pk: part_label(number, tag, pk) for pk, number, tag in told}


def _limits_of(characteristics: Sequence[Characteristic]) -> dict[int, list[Limits]]:
    rows = Specification.objects.filter(
        characteristic__in=characteristics, vehicle_class__withdrawn_at__isnull=True
    )
    found: dict[int, list[Limits]] = {}
    for row in rows.select_related("vehicle_class", "position", "vehicle").order_by(
        "vehicle_class__designation", "vehicle__label", "position__sequence", "pk"
    ):
        found.setdefault(row.characteristic_id, []).append(_limits(row))
    return found


def _limits(row: Specification) -> Limits:
    owner = str(row.vehicle or row.vehicle_class)
    lower, upper = _mm(row.lower_mm), _mm(row.upper_mm)
    worn_lower, worn_upper = _mm(row.worn_lower_mm), _mm(row.worn_upper_mm)
    return Limits(
        f"{owner} at {row.position.code}" if row.position else owner,
        lower,
        upper,
        lower if math.isnan(worn_lower) else worn_lower,
        upper if math.isnan(worn_upper) else worn_upper,
    )


def _spread(
    characteristic: Characteristic,
    limits: Sequence[Limits],
    measured: Mapping[int, Measured],
    labels: Mapping[int, str],
) -> Spread:
    keys = sorted(measured, key=lambda pk: (measured[pk].value, pk))
    chances = _chances([measured[pk] for pk in keys], limits)
    owners = [one.owner for one in limits]
    sized = tuple(
        Sized(
            labels[pk],
            part_address(pk),
            measured[pk],
            tuple(compress(owners, row >= FITS_AT_LEAST)),
            tuple(compress(owners, (row > MISFIT_AT_MOST) & (row < FITS_AT_LEAST))),
        )
        for pk, row in zip(keys, chances, strict=True)
    )
    return Spread(characteristic, tuple(limits), sized, *_rule(limits, sized))


def _chances(measured: Sequence[Measured], limits: Sequence[Limits]) -> NDArray[np.float64]:
    """Return how likely each piece, a row, keeps each of the limits as they hold when worn."""
    return conformance_probabilities(
        np.array([[one.value] for one in measured]).reshape(-1, 1),
        np.array([[one.uncertainty] for one in measured]).reshape(-1, 1),
        [one.least for one in limits],
        [one.greatest for one in limits],
    )


def _rule(limits: Iterable[Limits], sized: Iterable[Sized]) -> tuple[float, float]:
    """Return where the rule begins and how long it is, with a little room at both ends."""
    ends = [end for one in limits for end in (one.least, one.lower, one.upper, one.greatest)]
    ends += [
        one.measured.value + side * one.measured.uncertainty for one in sized for side in (-2, 2)
    ]
    known = [end for end in ends if not math.isnan(end)]
    if not known:
        return 0.0, 1.0
    margin = (max(known) - min(known) or 1.0) * 0.06
    return min(known) - margin, max(known) - min(known) + 2 * margin


def _mm(limit: object) -> float:
    return math.nan if limit is None else float(limit)  # type: ignore[arg-type]
