"""Lists written as spreadsheets: the parts that were chosen, and what vehicles still need.

The headings are among those that reading a list understands, so that a list of parts can go to
another group, or come back.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from itertools import chain

from django.db.models import QuerySet

from catalog.exchange.csv_files import write_csv
from catalog.models import Measurement, Part
from catalog.queries.needs import PositionNeed, VehicleNeeds
from catalog.queries.plan_outcomes import Outcome, VehicleOutcome
from catalog.queries.supply import where_kept
from catalog.reckoning.efforts import Effort

PARTS = (
    *("Number", "Tag", "Component", "Class", "Description", "Quantity", "Usability"),
    *("Survives", "Material", "Condition", "Location", "Marks", "Dimensions"),
    *("Identification", "Donation", "Remarks"),
)
NEEDS = (
    *("Vehicle", "Assembly", "Position", "Component", "Essential"),
    *("State", "Part in hand", "Where it is"),
)
PLAN = (
    *("Vehicle", "Position", "Component", "What to do", "Part or pattern", "Reason"),
    *("Hours", "Hours estimated", "Money"),
)
# So many rows are looked up with their marks and sizes at a time.
CHUNK = 2_000


def parts_as_csv(parts: QuerySet[Part]) -> bytes:
    """Write parts, in numerical order, with everything that stands in their own record."""
    rows = parts.select_related(
        "component", "vehicle_class", "location", "inside", "accession"
    ).prefetch_related("marks", "measurements")
    in_order = rows.order_by("number_sort", "pk").iterator(chunk_size=CHUNK)
    return write_csv(PARTS, map(_part, in_order))


def needs_as_csv(all_needs: Iterable[VehicleNeeds]) -> bytes:
    """Write what is not filled yet, a position a row, in the order of the vehicles."""
    every = chain.from_iterable(one.needs for one in all_needs)
    still_open = [need for need in every if not need.is_filled]
    # Reserving moves nothing: somebody still has to fetch the part from where it lies.
    places = where_kept(need.fitting.part_id for need in still_open if need.fitting)
    return write_csv(NEEDS, (_need(need, places) for need in still_open))


def plan_as_csv(outcome: Outcome) -> bytes:
    """Write what a plan comes to, a position a row: what is used, repaired, made, or stays open."""
    return write_csv(PLAN, chain.from_iterable(map(_planned, outcome.vehicles)))


def file_name(what: str, at: datetime) -> str:
    return f"{what} {at:%Y-%m-%d}.csv"


def _part(part: Part) -> Sequence[str]:
    return (
        part.number or "",
        part.tag or "",
        str(part.component or ""),
        str(part.vehicle_class or ""),
        part.description,
        str(part.quantity),
        part.get_usability_display(),
        f"{100 * part.surviving_share:.0f} %",
        part.material,
        "; ".join(filter(None, (part.condition, part.defect))),
        f"inside {part.inside}" if part.inside else str(part.location or ""),
        "; ".join(mark.text for mark in part.marks.all()),
        "; ".join(_sizes(part.measurements.all())),
        part.get_identification_status_display(),
        str(part.accession or ""),
        part.remarks,
    )


def _sizes(measurements: Iterable[Measurement]) -> Iterator[str]:
    return (f"{one.name} {one.text}" for one in measurements if not one.is_withdrawn)


def _need(need: PositionNeed, places: Mapping[int, str]) -> Sequence[str]:
    part = where = ""
    if need.fitting:
        part, where = str(need.fitting.part), places.get(need.fitting.part_id, "")
    elif need.best:
        part, where = str(need.best.part), need.best.part.location or ""
    return (
        str(need.vehicle),
        need.position.assembly,
        need.position.code,
        str(need.position.component),
        "yes" if need.position.is_essential else "no",
        need.words,
        part,
        where,
    )


def _planned(vehicle: VehicleOutcome) -> Iterator[Sequence[str]]:
    for use in vehicle.uses:
        act = "repair, then use" if use.effort else "use"
        where = (vehicle.label, use.code, use.component)
        yield (*where, act, use.label, use.reason, *_effort(use.effort))
    for make in vehicle.makes:
        where = (vehicle.label, make.code, make.component)
        told = " ".join(filter(None, (make.terms, make.note)))
        yield (*where, make.words, make.label, told, *_effort(make.effort))
    for left in vehicle.open:
        where = (vehicle.label, left.code, left.component)
        yield (*where, "stays open", "", left.words, *_effort(None))


def _effort(effort: Effort | None) -> Sequence[str]:
    if effort is None:
        return ("", "", "")
    money = "" if effort.money is None else f"{effort.money:.2f}"
    return (str(effort.hours), "yes" if effort.is_estimated else "no", money)
