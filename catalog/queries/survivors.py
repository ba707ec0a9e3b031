"""Examples that survive elsewhere, and what to measure when somebody goes there."""

from collections.abc import Iterable
from dataclasses import dataclass

from catalog.models import Characteristic, Position, Source, Specification, VehicleClass
from catalog.queries.measuring_pictures import MeasuringPicture, pictures_of
from catalog.queries.positions import class_lineage, positions_of_class


@dataclass(frozen=True, slots=True)
class OpenQuestion:
    """A dimension that nobody has stated yet for a class, and where it is measured.

    ``codes`` are the positions at which it is wanted.
    """

    component: str
    codes: tuple[str, ...]
    characteristic: str
    where: str
    why: str
    picture_id: int | None = None


@dataclass(frozen=True, slots=True)
class ToMeasure:
    """What is not known of a class, and the pictures that show where it is measured."""

    vehicle_class: VehicleClass
    questions: tuple[OpenQuestion, ...]
    pictures: tuple[MeasuringPicture, ...]


@dataclass(frozen=True, slots=True)
class Survivor:
    """A source that can be visited, and the classes of which it is an example."""

    source: Source
    classes: tuple[VehicleClass, ...]


def survivors() -> list[Survivor]:
    """Return the surviving examples elsewhere, by title, in a fixed number of queries."""
    rows = Source.objects.kept().filter(kind=Source.Kind.SURVIVOR).select_related("holder")
    return [
        Survivor(row, _classes(row))
        for row in rows.prefetch_related("citations__vehicle_class").order_by("title")
    ]


def survivor_of(source: Source) -> Survivor:
    return Survivor(source, _classes(source))


def to_measure(survivor: Survivor) -> list[ToMeasure]:
    """Return what to measure on a survivor, for each class that it is an example of."""
    return [_to_measure(one) for one in survivor.classes]


def open_questions(vehicle_class: VehicleClass) -> list[OpenQuestion]:
    """Return what is not known of a class: dimensions without limits, limits without a source.

    A component of which nobody has said what is measured on it asks for a sketch.
    """
    by_component: dict[int, list[Position]] = {}
    for position in positions_of_class(vehicle_class):
        by_component.setdefault(position.component_id, []).append(position)
    stated = _stated(vehicle_class)
    characteristics = _characteristics(by_component)
    return [
        question
        for key, positions in by_component.items()
        for question in _of_component(positions, characteristics.get(key, []), stated)
    ]


def _to_measure(vehicle_class: VehicleClass) -> ToMeasure:
    questions = open_questions(vehicle_class)
    places = ((one.picture_id, f"{one.component}, {one.characteristic}") for one in questions)
    return ToMeasure(vehicle_class, tuple(questions), tuple(pictures_of(places)))


def _classes(source: Source) -> tuple[VehicleClass, ...]:
    cited = {
        citation.vehicle_class.pk: citation.vehicle_class
        for citation in source.citations.all()
        if citation.vehicle_class is not None
    }
    return tuple(sorted(cited.values(), key=lambda one: one.designation))


def _characteristics(components: Iterable[int]) -> dict[int, list[Characteristic]]:
    found: dict[int, list[Characteristic]] = {}
    rows = Characteristic.objects.filter(component__in=list(components))
    for row in rows.order_by("sequence", "name"):
        found.setdefault(row.component_id, []).append(row)
    return found


def _stated(vehicle_class: VehicleClass) -> dict[int, bool]:
    """Return for each characteristic that has limits whether a source stands behind them."""
    rows = Specification.objects.filter(
        vehicle_class__in=class_lineage(vehicle_class), vehicle=None
    ).prefetch_related("citations")
    found: dict[int, bool] = {}
    for row in rows:
        has_source = bool(row.citations.all())
        found[row.characteristic_id] = found.get(row.characteristic_id, False) or has_source
    return found


def _of_component(
    positions: list[Position], characteristics: list[Characteristic], stated: dict[int, bool]
) -> Iterable[OpenQuestion]:
    component = str(positions[0].component)
    codes = tuple(position.code for position in positions)
    if not characteristics:
        why = "nothing is known to be measured on it"
        yield OpenQuestion(component, codes, "shape and main dimensions", "Sketch it.", why)
    for one in characteristics:
        if why := _why_open(stated.get(one.pk)):
            where = one.where_to_measure
            yield OpenQuestion(component, codes, one.name, where, why, one.picture_id)


def _why_open(is_sourced: bool | None) -> str:
    """Return why a dimension is asked for; ``None`` is for one that nobody has stated."""
    if is_sourced is None:
        return "not known yet"
    return "" if is_sourced else "no source stands behind what is recorded"
