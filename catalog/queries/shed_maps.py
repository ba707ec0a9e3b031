"""Where everything is, on a drawing of the shed, and where what is looked for is on it."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db.models import Prefetch

from catalog.models import Fitting, Location, Part
from catalog.queries.places import Branch, find_location, find_part, location_tree
from catalog.queries.search import entries_holding
from catalog.reckoning.plurals import counted
from catalog.reckoning.shed_plans import Place, Plan, lay_out, pruned

# The widths in pixels at which the drawing is laid out: for a phone, and for a desk or paper.
PHONE, DESK = 328.0, 1000.0
# A drawing with more boxes than this is not looked at but searched.
MOST_BOXES = 240
MOST_FOUND = 60


@dataclass(frozen=True, slots=True)
class Found:
    """A part that was looked for: where it is in words, and the place on the drawing."""

    part: Part
    words: str
    location: Location | None


@dataclass(frozen=True, slots=True)
class Marked:
    """What the drawing shows of a place: its address, its kind, and what was found in it."""

    url: str
    kind: str
    title: str
    found: int
    is_found: bool
    holds_found: bool


@dataclass(frozen=True, slots=True)
class ShedMap:
    """The drawing at two widths, its places in words, and what was looked for."""

    inside: Location | None
    branches: tuple[Branch, ...]
    plans: Mapping[str, Plan]
    marks: Mapping[int, Marked]
    words: str
    found: tuple[Found, ...]
    is_cut: bool
    places_found: tuple[Location, ...]
    is_shallow: bool

    @property
    def rows(self) -> list[tuple[Branch, Marked]]:
        return [(branch, self.marks[branch.location.pk]) for branch in self.branches]

    @property
    def parts_placed(self) -> int:
        return sum(branch.here for branch in self.branches)


def shed_map(words: str = "", *, inside: Location | None = None) -> ShedMap:
    """Return the drawing of all places or of those ``inside`` one, with what ``words`` name."""
    every = location_tree()
    lineage = inside.lineage if inside else "/"
    branches = [one for one in every if one.location.lineage.startswith(lineage)]
    parts = _parts_named(words)
    found = [_found(part) for part in parts[:MOST_FOUND]]
    here = _places_named(words)
    marks = _marks(branches, Counter(one.location.pk for one in found if one.location), here)
    trees = _trees(branches, marks, inside)
    drawn = pruned(trees, MOST_BOXES)
    return ShedMap(
        inside=inside,
        branches=tuple(branches),
        plans={"phone": lay_out(drawn, PHONE), "desk": lay_out(drawn, DESK)},
        marks=marks,
        words=words,
        found=tuple(found),
        is_cut=len(parts) > MOST_FOUND,
        places_found=tuple(here),
        is_shallow=drawn != trees,
    )


def _parts_named(words: str) -> list[Part]:
    """Return the part of this number or tag, else those that hold the words."""
    if not words:
        return []
    exact = find_part(words)
    entries = entries_holding(words).filter(kind="part").order_by("pk")
    keys = [exact.pk] if exact else entries.values_list("object_id", flat=True)[: MOST_FOUND + 1]
    fitted = Fitting.objects.filter(state=Fitting.State.FITTED)
    on = fitted.select_related("vehicle__home_location", "position")
    held = ("location", "inside__location", "inside__inside__location")
    rows = Part.objects.kept().filter(pk__in=list(keys)).in_numerical_order()
    rows = rows.select_related("component", *held, "inside__inside__inside__location")
    return list(rows.prefetch_related(Prefetch("fittings", on, to_attr="fitted_now")))


def _places_named(words: str) -> list[Location]:
    place = find_location(words) if words else None
    return [place] if place else []


def _found(part: Part) -> Found:
    holder, inside = part, ""
    while holder.inside is not None and holder.location is None:
        holder = holder.inside
        inside = f"{inside}inside {holder}, "
    if holder.location is not None:
        return Found(part, f"{inside}at {holder.location}", holder.location)
    for fitting in part.fitted_now:  # type: ignore[attr-defined]
        home = fitting.vehicle.home_location
        at = f"at home at {home}" if home else "whose home is not recorded"
        return Found(part, f"on {fitting.vehicle}, {fitting.position.code}, {at}", home)
    return Found(part, f"{inside}at no place that is recorded", None)


def _marks(
    branches: Iterable[Branch], found: Counter[int], here: Iterable[Location]
) -> dict[int, Marked]:
    """Say of each place what was found in it, and in the places that are in it."""
    wanted = {place.pk for place in here} | set(found)
    branches = list(branches)
    above: Counter[int] = Counter()
    holding: set[int] = set()
    for branch in branches:
        if branch.location.pk in wanted:
            for key in _above(branch.location):
                above[key] += found[branch.location.pk]
                holding.add(key)
    return {
        branch.location.pk: Marked(
            url=branch.location.get_absolute_url(),
            kind=branch.location.kind,
            title=f"{branch.location}: {_parts(branch)}",
            found=found[branch.location.pk] + above[branch.location.pk],
            is_found=branch.location.pk in wanted,
            holds_found=branch.location.pk in holding,
        )
        for branch in branches
    }


def _trees(
    branches: Iterable[Branch], marks: Mapping[int, Marked], inside: Location | None
) -> tuple[Place, ...]:
    """Put the places into one another, in the order of a walk."""
    children: dict[int | None, list[Branch]] = {}
    drawn = set(marks)
    for branch in branches:
        parent = branch.location.parent_id
        top = parent not in drawn or branch.location == inside
        children.setdefault(None if top else parent, []).append(branch)

    def grown(branch: Branch) -> Place:
        place = branch.location
        found = marks[place.pk].found
        note = f"{found} found, {_parts(branch)}" if found else _parts(branch)
        own = tuple(grown(one) for one in children.get(place.pk, ()))
        return Place(place.pk, place.name, note, place.kind == Location.Kind.RACK, own)

    return tuple(grown(branch) for branch in children.get(None, ()))


def _parts(branch: Branch) -> str:
    parts = counted(branch.everything, "part") if branch.everything else "empty"
    if not branch.vehicles:
        return parts
    vehicles = counted(branch.vehicles, "vehicle")
    return f"{vehicles}, {parts}" if branch.everything else vehicles


def _above(location: Location) -> list[int]:
    return [int(key) for key in location.lineage.split("/") if key][:-1]
