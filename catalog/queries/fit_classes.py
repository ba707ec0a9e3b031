"""Which vehicle classes could take a piece at all, judged by their widest limits, all at once."""

import math
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np
from django.db.models import FloatField
from django.db.models.functions import Cast, Coalesce

from catalog.models import Deviation, Position, Specification, VehicleClass
from catalog.queries.fit_pieces import Piece
from catalog.reckoning.conformance import (
    FITS_AT_LEAST,
    MISFIT_AT_MOST,
    Requirement,
    conformance_probabilities,
    verdict,
)

# So many excluded classes are shown with their reasons, the nearest misses first.
SHOWN = 12


@dataclass(frozen=True, slots=True)
class ClassOut:
    """A class whose limits exclude the piece, with the reason in words."""

    designation: str
    url: str
    reason: str


@dataclass(frozen=True, slots=True)
class ClassesSorted:
    """For each class that may take the piece how many such positions; and the classes that not."""

    positions: Mapping[int, int]
    excluded: tuple[ClassOut, ...]
    excluded_count: int
    of_other_class: int


@dataclass(frozen=True, slots=True)
class _Row:
    """The limits of one characteristic as worn, and how plausible the piece is within them."""

    vehicle_class: int
    characteristic: int
    lower: float | None
    upper: float | None
    plausibility: float


def sort_classes(piece: Piece) -> ClassesSorted:
    """Tell the classes with such positions apart: which may take the piece, and which cannot.

    A class is excluded only where its widest limits, of any position or vehicle and of the
    classes that it is based on, exclude the piece; the rest is for a closer look.
    """
    parents = dict(VehicleClass.objects.order_by().values_list("pk", "based_on"))
    lineages = {key: _lineage(key, parents) for key in parents}
    counts = _positions_by_class(piece.kinds, lineages)
    own = piece.part.vehicle_class_id
    of_kind = {key: n for key, n in counts.items() if own is None or own in lineages[key]}
    by_class: dict[int, list[_Row]] = {}
    for row in _rows(piece):
        by_class.setdefault(row.vehicle_class, []).append(row)
    plausible, out = {}, []
    for key, count in of_kind.items():
        widest = _widest(row for above in lineages[key] for row in by_class.get(above, ()))
        chance = math.prod(row.plausibility for row in widest)
        if chance > MISFIT_AT_MOST or not widest:
            plausible[key] = count
        else:
            out.append((chance, key, min(widest, key=lambda row: row.plausibility)))
    out.sort(key=lambda one: (-one[0], one[1]))
    nearest = [(key, row) for _, key, row in out[:SHOWN]]
    return ClassesSorted(plausible, _in_words(nearest, piece), len(out), len(counts) - len(of_kind))


def _rows(piece: Piece) -> list[_Row]:
    found = _limits(piece)
    if not found:
        return []
    values = [piece.measured[row[1]].value for row in found]
    doubts = [piece.measured[row[1]].uncertainty for row in found]
    lowers = np.array([row[2] for row in found], dtype=np.float64)
    uppers = np.array([row[3] for row in found], dtype=np.float64)
    shares = conformance_probabilities(values, doubts, lowers, uppers)
    # As in a verdict, a coarse measurement is held against the best that it could ever show.
    middles = np.where(np.isnan(lowers) | np.isnan(uppers), np.nan, 0.5 * (lowers + uppers))
    best = np.nan_to_num(conformance_probabilities(middles, doubts, lowers, uppers), nan=1.0)
    coarse = best < FITS_AT_LEAST
    plausible = np.where(coarse & (best > 0), shares / np.where(best > 0, best, 1.0), shares)
    return [
        _Row(*row, plausibility)
        for row, plausibility in zip(found, plausible.tolist(), strict=True)
    ]


def _limits(piece: Piece) -> list[tuple[int, int, float | None, float | None]]:
    rows = Specification.objects.filter(characteristic__in=list(piece.measured), is_required=True)
    found = rows.order_by().values_list(
        "vehicle_class",
        "characteristic",
        Cast(Coalesce("worn_lower_mm", "lower_mm"), FloatField()),
        Cast(Coalesce("worn_upper_mm", "upper_mm"), FloatField()),
    )
    # Limits that leave no room at all are a size without its tolerance, which excludes nothing.
    return [row for row in found if row[2] is None or row[2] != row[3]]


def _widest(rows: Iterable[_Row]) -> list[_Row]:
    """Return for each characteristic the row that the piece agrees with best."""
    best: dict[int, _Row] = {}
    for row in rows:
        known = best.get(row.characteristic)
        if known is None or row.plausibility > known.plausibility:
            best[row.characteristic] = row
    return list(best.values())


def _in_words(nearest: list[tuple[int, _Row]], piece: Piece) -> tuple[ClassOut, ...]:
    if not nearest:
        return ()
    classes = VehicleClass.objects.in_bulk([key for key, _ in nearest])
    names = _names(row.characteristic for _, row in nearest)
    return tuple(
        ClassOut(
            classes[key].designation,
            classes[key].get_absolute_url(),
            _reason(names[row.characteristic], row, piece),
        )
        for key, row in nearest
    )


def _reason(name: str, row: _Row, piece: Piece) -> str:
    limits = Requirement(name, lower=row.lower, upper=row.upper)
    return verdict([(limits, piece.measured[row.characteristic])]).sentence


def _names(keys: Iterable[int]) -> dict[int, str]:
    rows = Specification.objects.filter(characteristic__in=set(keys)).order_by()
    return dict(rows.values_list("characteristic", "characteristic__name").distinct())


def _positions_by_class(
    components: Iterable[int], lineages: Mapping[int, list[int]]
) -> Counter[int]:
    """Return how many such positions each class has, those taken over and not dropped included."""
    kinds = list(components)
    positions: dict[int, list[tuple[int, tuple[str, int]]]] = {}
    rows = Position.objects.filter(component__in=kinds, vehicle_class__isnull=False)
    for pk, owner, code, component in rows.order_by("pk").values_list(
        "pk", "vehicle_class", "code", "component"
    ):
        positions.setdefault(owner or 0, []).append((pk, (code, component)))
    dropped: dict[int, set[int]] = {}
    gone = Deviation.objects.filter(kind="dropped", position__component__in=kinds)
    for owner, position in gone.filter(vehicle_class__isnull=False).values_list(
        "vehicle_class", "position"
    ):
        dropped.setdefault(owner or 0, set()).add(position or 0)
    found: Counter[int] = Counter()
    for key, lineage in lineages.items():
        kept = {name: pk for above in reversed(lineage) for pk, name in positions.get(above, ())}
        left_out = {pk for above in lineage for pk in dropped.get(above, ())}
        found[key] = sum(pk not in left_out for pk in kept.values())
    return Counter({key: count for key, count in found.items() if count})


def _lineage(key: int | None, parents: Mapping[int, int | None]) -> list[int]:
    found: list[int] = []
    while key is not None and key not in found:
        found.append(key)
        key = parents.get(key)
    return found
