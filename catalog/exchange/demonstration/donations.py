"""Record the demonstration's accessions and the loose parts that came in them."""

from collections.abc import Mapping
from typing import Any

from catalog.exchange.demonstration.group import cite
from catalog.exchange.demonstration.ledger import Ledger, picture, read
from catalog.models import Hazard, Instrument, Part
from catalog.operations.accessions import close_accession, record_accession
from catalog.operations.captures import take_in
from catalog.operations.identifications import give_opinion, propose_identification
from catalog.operations.marks import add_mark
from catalog.operations.measurements import record_measurement
from catalog.operations.moves import move_part
from catalog.operations.parts import change_part
from catalog.operations.photos import add_photo, change_photo
from catalog.operations.stated_lines import add_stated_line
from catalog.reckoning.lengths import parse_length


def record_accessions(ledger: Ledger) -> None:
    for line in read("parts")["accession"]:
        year, serial = line["number"].split(".")
        values = {
            "year": int(year),
            "serial": int(serial),
            "method": line["method"],
            "party": ledger.parties.get(line.get("from", "")),
            "date_text": line["received"],
            "summary": line["summary"],
            "title_status": line["title_status"],
            "terms": line.get("terms", ""),
        }
        accession = record_accession(values, by=ledger.curator)
        ledger.accessions[line["number"]] = accession
        _papers(line, ledger)


def _papers(line: Mapping[str, Any], ledger: Ledger) -> None:
    accession = ledger.accessions[line["number"]]
    for text, component in line.get("stated", []):
        add_stated_line(
            accession, text, component=ledger.components.get(component), by=ledger.curator
        )
    cite(ledger, line.get("sources", []), accession=accession)
    for name in line.get("photos", []):
        with picture("photos", name) as file:
            add_photo(file, by=ledger.volunteer, name=name, accession=accession)


def close_accessions(ledger: Ledger) -> None:
    """Close what has been taken in long ago."""
    for line in read("parts")["accession"]:
        if not line.get("is_open", True):
            close_accession(ledger.accessions[line["number"]], by=ledger.curator)


def record_loose_parts(ledger: Ledger) -> None:
    ledger.instruments = {one.slug: one for one in Instrument.objects.all()}
    for line in read("parts")["part"]:
        ledger.wait_for(ledger.accessions[line["accession"]].date_earliest)
        ledger.parts[line["key"]] = _take_in(line, ledger)
        _describe(line, ledger)


def _take_in(line: Mapping[str, Any], ledger: Ledger) -> Part:
    files = [picture("photos", name) for name in line.get("photos", [])]
    part = take_in(
        by=ledger.volunteer,
        description=line["words"],
        photos=files,
        tag=ledger.tag() if line.get("tagged") else None,
        quantity=line.get("quantity", 1),
        accession=ledger.accessions[line["accession"]],
        # Some were put down in one place first, and lately brought to another.
        location=ledger.locations[line.get("came_to", line["location"])],
        hazards=Hazard.objects.filter(slug__in=line.get("hazards", [])),
        at=ledger.moment(),
    )
    for file in files:
        file.close()
    for photo in part.photos.all():
        change_photo(photo, {"is_published": True}, by=ledger.curator)
    return part


def _describe(line: Mapping[str, Any], ledger: Ledger) -> None:
    part, by = ledger.parts[line["key"]], ledger.volunteer
    values = {
        "usability": line.get("usability", part.usability),
        "surviving_share": line.get("survives", part.surviving_share),
        "castings_left": line.get("castings_left"),
        "defect": line.get("defect", ""),
        "material": line.get("material", ""),
        "mass_kg": line.get("mass_kg"),
        "is_published": True,
    }
    change_part(part, values, by=by)
    if "inside" in line:
        note = "It came like this."
        move_part(part, inside=ledger.parts[line["inside"]], note=note, by=by, at=ledger.moment())
    if "component" in line:
        _identify(line, ledger)
    for text, manner, place in line.get("marks", []):
        add_mark(part, text, manner=manner, place=place, by=by)
    for name, text, instrument in [*line.get("readings", []), *line.get("free_readings", [])]:
        record_measurement(
            part,
            name=name,
            length=parse_length(text),
            instrument=ledger.instruments[instrument],
            at=ledger.moment(),
            by=by,
        )


def _identify(line: Mapping[str, Any], ledger: Ledger) -> None:
    identification = propose_identification(
        ledger.parts[line["key"]],
        component=ledger.components[line["component"]],
        vehicle_class=ledger.classes.get(line.get("class", "")),
        confidence=line.get("confidence", "probable"),
        basis=line["basis"],
        reasons=line.get("reasons", ""),
        at=ledger.moment(),
        by=ledger.volunteer,
    )
    if line["agreed"]:
        give_opinion(identification, agrees=True, at=ledger.moment(), by=ledger.curator)
    elif "disputed" in line:
        give_opinion(
            identification,
            agrees=False,
            reasons=line["disputed"],
            at=ledger.moment(),
            by=ledger.curator,
        )
