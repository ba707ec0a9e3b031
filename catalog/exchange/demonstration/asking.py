"""Record what the demonstration's group asks the outside world for, and make it public."""

from catalog.exchange.demonstration.ledger import Ledger, read
from catalog.operations.wants import publish_want, record_want
from catalog.queries.positions import positions_of
from catalog.queries.wants import asked_of


def record_wants(ledger: Ledger) -> None:
    for line in read("wants")["want"]:
        vehicle = ledger.vehicles[line["vehicle"]]
        position = next(
            position
            for position in positions_of(vehicle)
            if (position.code, position.component.name) == (line["code"], line["component"])
        )
        values = asked_of(vehicle, position)
        values["words"] = line.get("words", values["words"])
        publish_want(record_want(values, by=ledger.curator), by=ledger.curator, at=ledger.moment())
