"""Record the demonstration's components and vehicle classes."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from catalog.exchange.demonstration.group import cite
from catalog.exchange.demonstration.ledger import Ledger, picture, read, spots
from catalog.models import Component, Drawing, Hazard, Member, Photo, VehicleClass
from catalog.operations.components import (
    add_alias,
    add_characteristic,
    add_mating_rule,
    record_component,
)
from catalog.operations.deviations import record_deviation
from catalog.operations.drawings import add_drawing_from_file, place_spot
from catalog.operations.marks import add_known_mark
from catalog.operations.photos import add_photo, change_photo
from catalog.operations.positions import add_position
from catalog.operations.specifications import add_specification
from catalog.operations.vehicle_classes import record_vehicle_class
from catalog.queries.positions import positions_of_class
from catalog.reckoning.length_texts import rounded
from catalog.reckoning.lengths import parse_length

SPARE = " (can be done without)"
DRAWN = {
    "measuring_drawing": "Where the {} is measured",
    "works_drawing": "The {} on the works drawing",
}


def millimeters(text: str | None) -> Decimal | None:
    """Return a length as written, in the millimeters that the record keeps."""
    return rounded(parse_length(text).mm, 9) if text else None


def record_components(ledger: Ledger) -> None:
    lines = read("components")
    for line in lines["component"]:
        _component(line, ledger)
    for line in lines["rule"]:
        add_mating_rule(
            ledger.characteristic(line["outer"]),
            ledger.characteristic(line["inner"]),
            least_mm=millimeters(line.get("least")),
            greatest_mm=millimeters(line.get("greatest")),
            worn_greatest_mm=millimeters(line.get("worn_greatest")),
            is_required=line.get("is_required", True),
            note=line["note"],
            source=ledger.sources[line["source"]],
            locator=line["locator"],
            by=ledger.curator,
        )


def _component(line: Mapping[str, Any], ledger: Ledger) -> None:
    by = ledger.curator
    values = {
        "name": line["name"],
        "definition": line["definition"],
        "making_hours": line.get("making_hours"),
        "repair_hours": line.get("repair_hours"),
        "hazards": Hazard.objects.filter(slug__in=line.get("hazards", [])),
    }
    component = record_component(values, by=by)
    for usage in ("us", "uk"):
        for name in line.get(usage, []):
            add_alias(component, name, usage, by=by)
    shown_on = _drawing_of_component(component, line, "measuring_drawing", by=by)
    _drawing_of_component(component, line, "works_drawing", by=by)
    for name, where in line.get("characteristics", []):
        add_characteristic(component, name=name, where_to_measure=where, picture=shown_on, by=by)
    for text, note in line.get("known_marks", []):
        add_known_mark(component, text, note=note, by=by)
    ledger.components[component.name] = component


def _drawing_of_component(
    component: Component, line: Mapping[str, Any], kind: str, *, by: Member
) -> Photo | None:
    """Add the drawing of ``DRAWN`` that the component's line names, where it names one."""
    if kind not in line:
        return None
    name, caption = line[kind], DRAWN[kind].format(component)
    with picture("drawings", name) as file:
        return add_photo(
            file, by=by, component=component, role="drawing", caption=caption, name=name
        )


def record_classes(ledger: Ledger) -> None:
    for line in read("classes")["class"]:
        vehicle_class = _class(line, ledger)
        ledger.classes[vehicle_class.designation] = vehicle_class
        _positions(line, vehicle_class, ledger)
        for drawing in line.get("drawing", []):
            _drawing(drawing, vehicle_class, ledger)
        for limits in line.get("limits", []):
            _limits(limits, vehicle_class, ledger)
        says = "a surviving example of the class"
        cite(ledger, line.get("survivors", []), vehicle_class=vehicle_class, says=says)


def _class(line: Mapping[str, Any], ledger: Ledger) -> VehicleClass:
    values = {
        "designation": line["designation"],
        "name": line["name"],
        "builder": ledger.parties[line["builder"]],
        "gauge_text": line["gauge"],
        "wheel_arrangement": line["wheel_arrangement"],
        "date_text": line["built"],
        "based_on": ledger.classes.get(line.get("based_on", "")),
        "notes": line.get("notes", ""),
        "is_published": line.get("is_published", False),
    }
    return record_vehicle_class(values, by=ledger.curator)


def _positions(line: Mapping[str, Any], vehicle_class: VehicleClass, ledger: Ledger) -> None:
    for assembly, code, component, is_essential in position_lines(line.get("assemblies", {})):
        add_position(
            vehicle_class=vehicle_class,
            code=code,
            component=ledger.components[component],
            assembly=assembly,
            is_essential=is_essential,
            by=ledger.curator,
        )
    dropped = line.get("dropped", {"codes": [], "reason": ""})
    for position in positions_of_class(vehicle_class):
        if position.code in dropped["codes"]:
            record_deviation(
                vehicle_class=vehicle_class,
                kind="dropped",
                position=position,
                reason=dropped["reason"],
                by=ledger.curator,
            )


def position_lines(assemblies: Mapping[str, str]) -> Iterator[tuple[str, str, str, bool]]:
    """Yield assembly, code, component, and whether the vehicle is incomplete without it."""
    for assembly, lines in assemblies.items():
        for line in lines.strip().splitlines():
            code, component = line.removesuffix(SPARE).split(" ", 1)
            yield assembly, code, component, not line.endswith(SPARE)


def _drawing(line: Mapping[str, Any], vehicle_class: VehicleClass, ledger: Ledger) -> None:
    with picture("drawings", line["file"]) as file:
        drawing = add_drawing_from_file(
            vehicle_class,
            file,
            title=line["title"],
            source=ledger.sources[line["source"]],
            by=ledger.curator,
        )
    change_photo(drawing.picture, {"is_published": True}, by=ledger.curator)
    _place_spots(drawing, line["spots"], vehicle_class, ledger)


def _place_spots(drawing: Drawing, view: str, vehicle_class: VehicleClass, ledger: Ledger) -> None:
    positions = {
        (position.code, position.component.name): position
        for position in positions_of_class(vehicle_class)
    }
    for spot in spots(view):
        if position := positions.get((spot["code"], spot["component"])):
            place_spot(position, drawing, spot["x"], spot["y"], by=ledger.curator)


def _limits(line: Mapping[str, Any], vehicle_class: VehicleClass, ledger: Ledger) -> None:
    add_specification(
        vehicle_class=vehicle_class,
        characteristic=ledger.characteristic(line["of"]),
        lower_mm=millimeters(line.get("lower")),
        upper_mm=millimeters(line.get("upper")),
        worn_lower_mm=millimeters(line.get("worn_lower")),
        worn_upper_mm=millimeters(line.get("worn_upper")),
        is_required=line.get("is_required", True),
        source=ledger.sources[line["source"]],
        locator=line["locator"],
        by=ledger.curator,
    )
