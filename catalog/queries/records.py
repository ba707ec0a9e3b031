"""The kinds of record by the word that stands in addresses: history, photos and citations."""

from django.db import models

from catalog.models import (
    Accession,
    Component,
    Deviation,
    Fitting,
    Identification,
    Instrument,
    Location,
    MatingRule,
    Measurement,
    Part,
    Party,
    Patent,
    Photo,
    Position,
    ProvenanceEvent,
    Removal,
    Source,
    Specification,
    Trial,
    Vehicle,
    VehicleClass,
    Want,
)

KINDS: dict[str, type[models.Model]] = {
    "accession": Accession,
    "component": Component,
    "deviation": Deviation,
    "event": ProvenanceEvent,
    "fitting": Fitting,
    "identification": Identification,
    "instrument": Instrument,
    "location": Location,
    "mating-rule": MatingRule,
    "measurement": Measurement,
    "part": Part,
    "party": Party,
    "patent": Patent,
    "photo": Photo,
    "position": Position,
    "removal": Removal,
    "source": Source,
    "specification": Specification,
    "trial": Trial,
    "vehicle": Vehicle,
    "vehicle-class": VehicleClass,
    "want": Want,
}
WORDS = {model: word for word, model in KINDS.items()}


def kind_of(record: models.Model) -> str:
    return WORDS[type(record)]


def link_name(record: models.Model) -> str:
    """Return the name of the foreign key by which photos and citations point at the record."""
    return kind_of(record).replace("-", "_")
