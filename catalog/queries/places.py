"""Where things are: the tree of locations, what each holds, and places by any name for them."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.db.models import Count, Prefetch

from catalog.models import Fitting, Location, Move, Part, Vehicle
from catalog.models.parts import PartQuerySet
from catalog.queries.tags import bearer_of
from catalog.reckoning.codes import is_valid_tag_code, normalize_tag_code


@dataclass(frozen=True, slots=True)
class Branch:
    """A location in the tree: how deep it lies, and what is at it and below it."""

    location: Location
    depth: int
    here: int
    below: int
    vehicles: int

    @property
    def everything(self) -> int:
        return self.here + self.below


def location_tree() -> list[Branch]:
    """Return every kept location in the order of a walk through the tree."""
    locations: dict[int, Any] = {row.pk: row for row in Location.objects.for_list()}
    vehicles = dict(
        Vehicle.objects.kept()
        .order_by()
        .values_list("home_location")
        .annotate(count=Count("pk"))
        .values_list("home_location", "count")
    )
    below = dict.fromkeys(locations, 0)
    for location in locations.values():
        for key in _keys(location)[:-1]:
            if key in below:
                below[key] += location.part_count
    ordered = sorted(locations.values(), key=lambda location: in_walking_order(location.path))
    return [
        Branch(
            location=location,
            depth=location.depth,
            here=location.part_count,
            below=below[location.pk],
            vehicles=vehicles.get(location.pk, 0),
        )
        for location in ordered
    ]


def in_walking_order(path: str) -> list[list[tuple[int, str]]]:
    """Sort ``Shelf 2`` before ``Shelf 10``, and what is in a place right behind it."""
    return [
        [(int(run), "") if run.isdigit() else (-1, run) for run in re.findall(r"\d+|\D+", name)]
        for name in path.casefold().split(" › ")
    ]


def places_above(location: Location) -> list[Location]:
    """Return what the location is inside of, from the site down."""
    return list(Location.objects.filter(pk__in=_keys(location)[:-1]).order_by("lineage"))


def places_inside(location: Location) -> list[Location]:
    """Return the places right inside the location, each with the number of its parts."""
    children = Location.objects.for_list().filter(parent=location)
    return sorted(children, key=lambda child: in_walking_order(child.name))


def places_at_or_below(location: Location) -> list[Location]:
    """Return the location and every kept place inside it, in the order of a walk."""
    found = Location.objects.kept().filter(lineage__startswith=location.lineage)
    return sorted(found.select_related("parent"), key=lambda one: in_walking_order(one.path))


def parts_below(location: Location) -> PartQuerySet:
    """Return the parts at the location or at any place inside it, with what they hold."""
    held = Prefetch("contents", Part.objects.kept().select_related("component"))
    parts = Part.objects.for_list().filter(location__lineage__startswith=location.lineage)
    return parts.in_numerical_order().prefetch_related(held)


def find_location(words: str) -> Location | None:
    """Find a kept location by tag, by path, or by a name that only one has."""
    code = normalize_tag_code(words)
    kept = Location.objects.kept()
    if is_valid_tag_code(words) and (tagged := kept.filter(tag=code).first()):
        return tagged
    plain = " › ".join(name.strip() for name in re.split("[›>]", words.strip()))
    found = list(kept.filter(path__iexact=plain)) or list(kept.filter(name__iexact=plain))
    return found[0] if len(found) == 1 else None


def find_part(words: str) -> Part | None:
    """Find a kept part by its number or its tag, as typed or scanned, or as it is called."""
    if is_valid_tag_code(words):
        bearer = bearer_of(normalize_tag_code(words))
        return bearer if isinstance(bearer, Part) and not bearer.is_withdrawn else None
    if unnumbered := re.fullmatch(r"unnumbered (\d{1,9})", words.strip()):
        return Part.objects.kept().filter(pk=unnumbered[1], number=None).first()
    return Part.objects.kept().filter(number__iexact=words.strip()).first()


def find_parts(lines: Iterable[str]) -> tuple[list[Part], list[str]]:
    """Return the parts that the lines name, each once, and the lines that name none."""
    found: dict[int, Part] = {}
    unknown = []
    for line in lines:
        part = find_part(line)
        if part is not None:
            found[part.pk] = part
        elif line.strip():
            unknown.append(line.strip())
    return list(found.values()), unknown


def where_in_words(part: Part) -> str:
    """Say where a part is: inside another, at a location, or fitted to a vehicle."""
    if part.inside is not None:
        return f"inside {part.inside}"
    if part.location is not None:
        return str(part.location)
    fitted = part.fittings.filter(state=Fitting.State.FITTED)
    row = fitted.select_related("vehicle", "position__component").first()
    return f"on {row.vehicle}, {row.position}" if row else "not recorded"


def moves_of(part: Part) -> list[Move]:
    """Return where the part has been, newest first, ready to be shown."""
    return list(
        part.moves.select_related(
            "from_location", "to_location", "from_inside", "to_inside", "moved_by"
        )
    )


def _keys(location: Location) -> list[int]:
    return [int(key) for key in location.lineage.split("/") if key]
