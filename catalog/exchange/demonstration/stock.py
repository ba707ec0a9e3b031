"""Record the demonstration's vehicles, what is still on them, and what was taken off."""

from collections.abc import Iterable, Mapping
from typing import Any

from catalog.exchange.demonstration.group import cite
from catalog.exchange.demonstration.ledger import Ledger, picture, read
from catalog.models import Fitting, Part, Position, Vehicle
from catalog.operations.fittings import fit_part
from catalog.operations.identifications import give_opinion, propose_identification
from catalog.operations.parts import record_part
from catalog.operations.photos import add_photo
from catalog.operations.positions import add_position
from catalog.operations.provenance import record_event
from catalog.operations.removals import remove_part
from catalog.operations.vehicles import record_difference, record_vehicle
from catalog.queries.positions import positions_of


def record_vehicles(ledger: Ledger) -> None:
    for place, line in enumerate(read("vehicles")["vehicle"], start=1):
        vehicle = _vehicle(line, place, ledger)
        ledger.vehicles[line["label"]] = vehicle
        _differences(line, vehicle, ledger)
        for position in positions_of(vehicle):
            if is_named(position, line.get("fitted_lately", [])):
                part = _part_of(position, vehicle, line["accession"], ledger)
                ledger.later.append((part, vehicle, position))
            elif is_named(position, line["fitted"]):
                _fit(position, vehicle, line["accession"], ledger)
        for removed in line.get("removed", []):
            _take_off(removed, vehicle, line["accession"], ledger)


def _vehicle(line: Mapping[str, Any], place: int, ledger: Ledger) -> Vehicle:
    values = {
        "label": line["label"],
        "vehicle_class": ledger.classes[line["class"]],
        "running_number": line.get("running_number", ""),
        "name": line.get("name", ""),
        "works_number": line.get("works_number", ""),
        "date_text": line["built"],
        "status": line["status"],
        "restoration_order": place,
        "home_location": ledger.locations[line["location"]],
        "story": line["story"],
        "is_published": line["is_published"],
    }
    vehicle = record_vehicle(values, by=ledger.curator)
    for name in line.get("photos", []):
        with picture("photos", name) as file:
            add_photo(file, by=ledger.curator, name=name, vehicle=vehicle, is_published=True)
    return vehicle


def _differences(line: Mapping[str, Any], vehicle: Vehicle, ledger: Ledger) -> None:
    for added in line.get("added", []):
        position = add_position(
            vehicle=vehicle,
            code=added["code"],
            component=ledger.components[added["component"]],
            assembly=added["assembly"],
            by=ledger.curator,
        )
        record_difference(
            vehicle, kind="added", reason=added["reason"], position=position, by=ledger.curator
        )
    for difference in line.get("difference", []):
        record_difference(vehicle, by=ledger.curator, **difference)


def is_named(position: Position, names: Iterable[str]) -> bool:
    """Tell whether one of ``names`` means the position: ``A1``, ``L1*``, ``L1 journal box``."""
    wanted = {"*", position.code, f"{position.code}*", f"{position.code} {position.component}"}
    return not wanted.isdisjoint(names)


def _fit(position: Position, vehicle: Vehicle, accession: str, ledger: Ledger) -> Fitting:
    part = _part_of(position, vehicle, accession, ledger)
    return fit_part(part, vehicle, position, at=ledger.moment(), by=ledger.curator)


def _part_of(position: Position, vehicle: Vehicle, accession: str, ledger: Ledger) -> Part:
    values = {
        "description": f"On {vehicle} since it came",
        "usability": Part.Usability.READY,
        "keep_with": vehicle,
    }
    part = record_part(
        values, accession=ledger.accessions[accession], by=ledger.volunteer, at=ledger.moment()
    )
    identification = propose_identification(
        part,
        component=position.component,
        vehicle_class=vehicle.vehicle_class,
        confidence="certain",
        basis="original",
        at=ledger.moment(),
        by=ledger.volunteer,
    )
    give_opinion(identification, agrees=True, at=ledger.moment(), by=ledger.curator)
    return part


def _take_off(line: Mapping[str, str], vehicle: Vehicle, accession: str, ledger: Ledger) -> None:
    position = next(
        position
        for position in positions_of(vehicle)
        if position.code == line["code"] and position.component.name == line["component"]
    )
    fitting = _fit(position, vehicle, accession, ledger)
    how = {name: line[name] for name in ("orientation", "fastenings", "shims") if name in line}
    remove_part(
        fitting,
        location=ledger.locations[line["location"]],
        at=ledger.moment(),
        by=ledger.curator,
        **how,
    )
    with picture("photos", line["photo"]) as file:
        add_photo(
            file,
            by=ledger.volunteer,
            role="after_removal",
            name=line["photo"],
            part=fitting.part,
        )


def record_events(ledger: Ledger) -> None:
    for line in read("vehicles")["event"]:
        values = {
            "kind": line["kind"],
            "date_text": line["date"],
            "from_party": ledger.parties.get(line.get("from", "")),
            "to_party": ledger.parties.get(line.get("to", "")),
            "keeper": ledger.parties.get(line.get("keeper", "")),
            "place": line.get("place", ""),
            "words": line.get("words", ""),
            "certainty": line["certainty"],
        }
        event = record_event(
            vehicle=ledger.vehicles.get(line.get("vehicle", "")),
            part=ledger.parts.get(line.get("part", "")),
            values=values,
            by=ledger.curator,
        )
        cite(ledger, line.get("sources", []), event=event)
