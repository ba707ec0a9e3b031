"""Record the demonstration's members, parties, sources and locations."""

from collections.abc import Mapping
from typing import Any

from catalog.exchange.demonstration.ledger import Ledger, read
from catalog.models import Member
from catalog.operations.citations import add_citation
from catalog.operations.members import add_member
from catalog.operations.parties import record_party
from catalog.operations.places import record_location
from catalog.operations.sources import record_source

PASSWORD = "marrow-fell"  # noqa: S105 - printed on the screen for whoever tries the demonstration


def record_group(ledger: Ledger) -> None:
    lines = read("group")
    for line in lines["member"]:
        ledger.members[line["username"]] = _member(line)
    for line in lines["party"]:
        ledger.parties[line["name"]] = record_party(line, by=ledger.steward)
    for line in lines["source"]:
        ledger.sources[line["key"]] = record_source(_source(line, ledger), by=ledger.curator)
    for line in lines["location"]:
        values = {name: line[name] for name in ("kind", "name")}
        values["parent"] = ledger.locations.get(line.get("parent", ""))
        ledger.locations[line["key"]] = record_location(values, by=ledger.curator)


def _member(line: Mapping[str, str]) -> Member:
    first, _, last = line["name"].partition(" ")
    return add_member(
        {
            "username": line["username"],
            "first_name": first,
            "last_name": last,
            "role": line["role"],
        },
        password=PASSWORD,
    )


def _source(line: Mapping[str, Any], ledger: Ledger) -> dict[str, Any]:
    values = {name: value for name, value in line.items() if name not in ("key", "date")}
    values["date_text"] = line.get("date", "")
    for name in ("holder", "speaker"):
        if name in line:
            values[name] = ledger.parties[line[name]]
    return values


def cite(ledger: Ledger, sources: list[list[str]], **statement: Any) -> None:
    """Put each ``[source, locator]`` behind the statement."""
    for key, locator in sources:
        add_citation(ledger.sources[key], locator=locator, by=ledger.curator, **statement)
