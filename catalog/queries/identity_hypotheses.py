"""What a piece may be: every component, of every class that has places or limits for it."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from django.db.models import Count

from catalog.models import Characteristic, Component, Position, Specification, VehicleClass
from catalog.queries.components import spelling
from catalog.queries.identifications import kinds_of
from catalog.reckoning.identity import Hypothesis, prior_weight
from catalog.reckoning.limits import Limits

Features = dict[str, Limits | None]


@dataclass(frozen=True, slots=True)
class Kind:
    """A component of a class, or of no class in particular."""

    component: Component
    vehicle_class: VehicleClass | None

    @property
    def key(self) -> str:
        owner = self.vehicle_class.pk if self.vehicle_class else ""
        return f"{self.component.pk}-{owner}"

    @property
    def name(self) -> str:
        if self.vehicle_class is None:
            return self.component.name
        designation = self.vehicle_class.designation
        start = designation[0].lower() if designation.startswith("Class ") else designation[0]
        return f"{start}{designation[1:]} {self.component.name}"


@dataclass(frozen=True, slots=True)
class Kinds:
    """All that a piece may be, with the names under which characteristics are known.

    ``names`` gives the common name of each characteristic by its spelling, ``measured_at`` where
    on which component it is measured.
    """

    by_key: Mapping[str, Kind]
    hypotheses: tuple[Hypothesis, ...]
    names: Mapping[str, str]
    measured_at: Mapping[tuple[int, str], Characteristic] = field(default_factory=dict)

    def common_name(self, name: str) -> str:
        return self.names.get(spelling(name), name)


def all_kinds() -> Kinds:
    """Gather what a piece may be, in so many queries however many components there are."""
    components = {row.pk: row for row in Component.objects.kept().order_by("name")}
    lineages = kinds_of(components)
    features = _Features.gather()
    places = _places()
    kinds = list(_kinds(components, places, features))
    hypotheses = tuple(
        Hypothesis(
            key=kind.key,
            name=kind.name,
            component=kind.component.name,
            vehicle_class=str(kind.vehicle_class.pk) if kind.vehicle_class else "",
            prior_weight=prior_weight(places[kind.component.pk, _class_key(kind)]),
            characteristics=features.of(kind, lineages[kind.component.pk]),
        )
        for kind in kinds
    )
    return Kinds(
        {kind.key: kind for kind in kinds},
        hypotheses,
        features.names,
        features.measured_at(lineages),
    )


def _class_key(kind: Kind) -> int | None:
    return kind.vehicle_class.pk if kind.vehicle_class else None


Places = Counter[tuple[int, int | None]]


def _places() -> Places:
    """Count the places of each component in each class that has them itself.

    A class that is based on another and has the same places is the same hypothesis: nothing that
    can be measured tells the two apart.
    """
    found: Places = Counter()
    of_classes = Position.objects.filter(vehicle_class__isnull=False)
    of_vehicles = Position.objects.filter(vehicle__isnull=False)
    for rows, owner in ((of_classes, "vehicle_class"), (of_vehicles, "vehicle__vehicle_class")):
        counted = rows.order_by().values_list("component", owner).annotate(Count("pk"))
        for component, kind, count in counted:
            found[component, kind] += count
    return found


@dataclass(frozen=True, slots=True)
class _Features:
    """The characteristics of each component, and the limits that classes set for them."""

    rows: Mapping[int, list[Characteristic]]
    names: Mapping[str, str]
    limits: Mapping[tuple[int, int], Limits]

    @classmethod
    def gather(cls) -> "_Features":
        rows: dict[int, list[Characteristic]] = {}
        names: dict[str, str] = {}
        found = Characteristic.objects.filter(component__withdrawn_at__isnull=True)
        for row in found.select_related("picture").order_by("pk"):
            rows.setdefault(row.component_id, []).append(row)
            names.setdefault(spelling(row.name), row.name)
        return cls(rows, names, _limits())

    def of(self, kind: Kind, lineage: Iterable[int]) -> Features:
        own = _class_key(kind)
        return {
            self.names[spelling(row.name)]: None if own is None else self.limits.get((own, row.pk))
            for component in lineage
            for row in self.rows.get(component, ())
        }

    def measured_at(
        self, lineages: Mapping[int, Iterable[int]]
    ) -> dict[tuple[int, str], Characteristic]:
        return {
            (component, self.names[spelling(row.name)]): row
            for component, lineage in lineages.items()
            for above in lineage
            for row in self.rows.get(above, ())
        }

    def classes_of(self, component: int) -> set[int]:
        own = {row.pk for row in self.rows.get(component, ())}
        return {kind for kind, characteristic in self.limits if characteristic in own}


def _limits() -> dict[tuple[int, int], Limits]:
    """Return the widest limits as worn of each characteristic on each class."""
    found: dict[tuple[int, int], Limits] = {}
    for row in Specification.objects.order_by("pk"):
        lower = row.lower_mm if row.worn_lower_mm is None else row.worn_lower_mm
        upper = row.upper_mm if row.worn_upper_mm is None else row.worn_upper_mm
        own = Limits(
            None if lower is None else float(lower), None if upper is None else float(upper)
        )
        key = (row.vehicle_class_id, row.characteristic_id)
        found[key] = _wider(found[key], own) if key in found else own
    return found


def _wider(one: Limits, other: Limits) -> Limits:
    return Limits(
        None if one.lower is None or other.lower is None else min(one.lower, other.lower),
        None if one.upper is None or other.upper is None else max(one.upper, other.upper),
    )


def _kinds(
    components: Mapping[int, Component], places: Places, features: _Features
) -> Iterable[Kind]:
    """Yield each component with each class that has places or limits of its own for it.

    A broader component without a place of its own is left to the narrower ones.
    """
    classes = VehicleClass.objects.kept().in_bulk()
    with_places: dict[int, set[int]] = {}
    for placed, owner in places:
        with_places.setdefault(placed, set()).add(owner or 0)
    broader = {row.broader_id for row in components.values()}
    for key, component in components.items():
        own = (with_places.get(key, set()) | features.classes_of(key)) & set(classes)
        for kind in sorted(own):
            yield Kind(component, classes[kind])
        if not own and key not in broader:
            yield Kind(component, None)
