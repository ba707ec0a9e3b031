"""Load the demonstration, once: what is there already is left as members have made it."""

from dataclasses import dataclass

from django.db import transaction

from catalog.exchange.demonstration.asking import record_wants
from catalog.exchange.demonstration.donations import (
    close_accessions,
    record_accessions,
    record_loose_parts,
)
from catalog.exchange.demonstration.group import PASSWORD, record_group
from catalog.exchange.demonstration.kinds import record_classes, record_components
from catalog.exchange.demonstration.lately import record_lately, record_visits
from catalog.exchange.demonstration.ledger import Ledger
from catalog.exchange.demonstration.papers import record_patents
from catalog.exchange.demonstration.stock import record_events, record_vehicles
from catalog.exchange.demonstration.what_ifs import record_plans
from catalog.models import Member, Part, Vehicle

__all__ = ["PASSWORD", "Loaded", "load_demonstration"]

STEPS = (
    record_group,
    record_components,
    record_classes,
    record_accessions,
    record_loose_parts,
    record_vehicles,
    record_events,
    record_patents,
    record_wants,
    close_accessions,
    record_visits,
    record_lately,
    record_plans,
)


@dataclass(frozen=True, slots=True)
class Loaded:
    """How much of the demonstration is there, and whether this call brought it."""

    is_new: bool
    vehicles: int
    parts: int


@transaction.atomic
def load_demonstration() -> Loaded:
    """Record the Marrow Fell Tramway Group, all of it or nothing; leave it when it is there."""
    is_new = not Member.objects.filter(username="steward").exists()
    if is_new:
        ledger = Ledger()
        for step in STEPS:
            step(ledger)
    return Loaded(is_new, Vehicle.objects.count(), Part.objects.count())
