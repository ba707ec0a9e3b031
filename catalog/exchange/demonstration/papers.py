"""Record the demonstration's patents with their figures, and how parts resemble them."""

from catalog.exchange.demonstration.ledger import Ledger


def record_patents(ledger: Ledger) -> None:
    pass
