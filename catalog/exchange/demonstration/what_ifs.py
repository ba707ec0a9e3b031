"""Record the plans of the demonstration's group: from what is in hand, and with castings."""

from catalog.exchange.demonstration.ledger import Ledger, read
from catalog.operations.plan_work import work_plan
from catalog.operations.plans import make_plan


def record_plans(ledger: Ledger) -> None:
    numbers = {vehicle: place for place, vehicle in enumerate(ledger.vehicles.values(), start=1)}
    for line in read("plans")["plan"]:
        values = {**line, "numbers": numbers}
        work_plan(make_plan(values, by=ledger.curator, at=ledger.moment()))
