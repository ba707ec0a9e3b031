"""Parts in hand that could be used, the first few of each component, found by index."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Any

from django.db import connection
from django.urls import reverse

from catalog.models import Fitting

# SQLite takes 500 selects in one compound statement at most.
ARMS_AT_ONCE = 400
ONE = Decimal(1)
# How a part's place is told where it lies in another part of which too little is recorded.
UNKNOWN_PLACE, OTHER_PART = "a place not recorded", "another part"


@dataclass(frozen=True, slots=True)
class InHand:
    """What needs are reckoned from: one part, how many of it are in use, and where the rest is.

    A vehicle's page looks at hundreds of parts, and whole model objects would take longer to
    make than everything else on it.
    """

    pk: int
    number: str | None
    tag: str | None
    number_sort: str
    component_id: int
    vehicle_class_id: int | None
    usability: str
    surviving_share: Decimal
    quantity: int
    keep_with_id: int | None
    identification_status: str
    defect: str
    location: str | None
    used: int

    def __str__(self) -> str:
        return self.label

    def get_absolute_url(self) -> str:
        return part_address(self.pk)

    @property
    def label(self) -> str:
        return self.number or (f"tag {self.tag}" if self.tag else f"unnumbered {self.pk}")

    @property
    def key(self) -> str:
        """Return the primary key as pages send it back: digits only, in every language."""
        return str(self.pk)

    @property
    def free(self) -> int:
        return self.quantity - self.used


@lru_cache(maxsize=10_000)
def part_address(pk: int) -> str:
    return reverse("part-detail", args=[pk])


@dataclass(frozen=True, slots=True)
class Wanted:
    """What to look for: how many at most of each component in each usability.

    Parts identified as of a class not among ``classes`` are left out; so are those kept for a
    vehicle not among ``vehicles``.
    """

    limits: Mapping[tuple[int, str], int]
    classes: tuple[int, ...]
    vehicles: tuple[int, ...]


def parts_in_hand(wanted: Wanted) -> list[InHand]:
    """Return the parts of which a piece is free, in numerical order, as many as are wanted.

    Without the limits a vehicle's page would read tens of thousands of rows.
    """
    arms = list(wanted.limits.items())
    found: list[InHand] = []
    for start in range(0, len(arms), ARMS_AT_ONCE):
        found += _read(arms[start : start + ARMS_AT_ONCE], wanted)
    return found


_STATES = [str(state) for state in Fitting.ACTIVE]
_IN_USE = "SELECT COUNT(*) FROM catalog_fitting WHERE part_id = {part}.id AND state IN ({states})"
_ARM = """
SELECT id FROM (
  SELECT p.id FROM catalog_part p
  WHERE p.component_id = %s AND p.usability = %s AND p.withdrawn_at IS NULL
    AND (p.vehicle_class_id IS NULL OR p.vehicle_class_id IN ({classes}))
    AND (p.keep_with_id IS NULL OR p.keep_with_id IN ({vehicles}))
    AND p.quantity > ({used})
    AND (p.usability <> 'pattern' OR p.castings_left IS NULL OR p.castings_left > 0)
  ORDER BY p.number_sort, p.id LIMIT %s) arm
"""
_WHOLE = """
SELECT part.id, part.number, part.tag, part.number_sort, part.component_id,
  part.vehicle_class_id, part.usability, part.surviving_share, part.quantity,
  part.keep_with_id, part.identification_status, part.defect,
  CASE WHEN nest.id IS NULL THEN place.path
    ELSE COALESCE(around.path, %s) || ', inside ' || COALESCE(nest.number, nest.tag, %s) END,
  ({used})
FROM catalog_part part LEFT JOIN catalog_location place ON place.id = part.location_id
  LEFT JOIN catalog_part nest ON nest.id = part.inside_id
  LEFT JOIN catalog_location around ON around.id = nest.location_id
WHERE part.id IN ({keys}) ORDER BY part.number_sort, part.id
"""


def in_hand(keys: Iterable[int]) -> list[InHand]:
    """Return these parts, whatever their state, in numerical order."""
    known = set(keys)
    return _found(_numbers(known), []) if known else []


def where_kept(keys: Iterable[int]) -> dict[int, str]:
    """Return where each of these parts lies, in whatever other part, so far as it is recorded."""
    return {one.pk: one.location for one in in_hand(keys) if one.location}


def _read(arms: list[tuple[tuple[int, str], int]], wanted: Wanted) -> Iterable[InHand]:
    arm = _ARM.format(
        classes=_numbers(wanted.classes),
        vehicles=_numbers(wanted.vehicles),
        used=_used("p"),
    )
    values: list[str | int] = []
    for (component, usability), limit in arms:
        values += [component, str(usability), *_STATES, limit]
    return _found(" UNION ALL ".join([arm] * len(arms)), values)


def _found(keys: str, values: list[str | int]) -> list[InHand]:
    """Return the parts whose keys are listed, or selected with ``values``."""
    whole = _WHOLE.format(used=_used("part"), keys=keys)
    with connection.cursor() as cursor:
        cursor.execute(whole, [UNKNOWN_PLACE, OTHER_PART, *_STATES, *values])
        return [_part(row) for row in cursor.fetchall()]


def _used(part: str) -> str:
    return _IN_USE.format(part=part, states=", ".join(["%s"] * len(_STATES)))


def _part(row: tuple[Any, ...]) -> InHand:
    # SQLite keeps decimals as floats, and nearly every part is whole.
    share = ONE if row[7] == 1 else Decimal(str(row[7]))
    return InHand(*(*row[:7], share, *row[8:]))


def _numbers(keys: Iterable[int]) -> str:
    """Write keys into the statement itself: there may be more than a statement takes values."""
    return ", ".join(str(int(key)) for key in keys) or "NULL"
