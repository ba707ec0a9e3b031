"""Record the demonstration's patents with their figures, and how parts resemble them."""

from collections.abc import Mapping
from typing import Any

from catalog.exchange.demonstration.ledger import Ledger, picture, read
from catalog.models import Patent
from catalog.operations.patents import add_character, add_figure, add_likeness, record_patent

TOLD = ("country", "number", "year", "kind", "title", "filed_on", "issued_on", "notes")


def record_patents(ledger: Ledger) -> None:
    for line in read("patents")["patent"]:
        values = {name: line[name] for name in TOLD if name in line}
        values["is_published"] = line["is_published"]
        values["assignee"] = ledger.parties.get(line.get("assignee", ""))
        values["inventors"] = [ledger.parties[name] for name in line.get("inventors", [])]
        patent = record_patent(values, by=ledger.curator)
        for figure in line.get("figure", []):
            _figure(figure, patent, ledger)
        for likeness in line.get("likeness", []):
            add_likeness(
                ledger.figures[likeness["figure"]],
                part=ledger.parts[likeness["part"]],
                degree=likeness["degree"],
                differences=likeness.get("differences", ""),
                by=ledger.curator,
            )


def _figure(line: Mapping[str, Any], patent: Patent, ledger: Ledger) -> None:
    with picture("drawings", line["file"]) as file:
        figure = add_figure(
            patent, file, label=line["label"], title=line["title"], by=ledger.curator
        )
    ledger.figures[line["label"]] = figure
    for character, words, component, x, y in line["characters"]:
        add_character(
            figure,
            character=character,
            at=(x, y),
            words=words,
            component=ledger.components.get(component),
            by=ledger.curator,
        )
