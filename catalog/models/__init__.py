"""The nouns of the catalog: what is recorded, and what the database itself refuses."""

from catalog.models.accessions import Accession, StatedLine
from catalog.models.bench import SeenApart
from catalog.models.components import Characteristic, Component, ComponentAlias, Hazard, MatingRule
from catalog.models.fittings import Fitting, Removal, Trial
from catalog.models.identifications import Identification, Opinion
from catalog.models.imports import ImportBatch, ImportedRow
from catalog.models.marks import KnownMark, PartMark
from catalog.models.measurements import Instrument, Measurement
from catalog.models.members import Member, Role
from catalog.models.parties import Party
from catalog.models.parts import Part
from catalog.models.patents import Likeness, Patent, PatentFigure, ReferenceCharacter
from catalog.models.photos import Photo, PhotoSpot
from catalog.models.places import Location, Move
from catalog.models.plans import Plan
from catalog.models.positions import Drawing, Position, PositionSpot, Specification
from catalog.models.printed_sheets import PrintedSheet
from catalog.models.provenance import ProvenanceEvent
from catalog.models.searching import SearchEntry
from catalog.models.sources import Citation, Source, SourceFile
from catalog.models.stock_takes import StockTake, StockTakeLine
from catalog.models.tags import PrintedTag
from catalog.models.vehicles import Deviation, Vehicle, VehicleClass
from catalog.models.visits import Visit
from catalog.models.wants import Answer, Want

__all__ = [
    "Accession",
    "Answer",
    "Characteristic",
    "Citation",
    "Component",
    "ComponentAlias",
    "Deviation",
    "Drawing",
    "Fitting",
    "Hazard",
    "Identification",
    "ImportBatch",
    "ImportedRow",
    "Instrument",
    "KnownMark",
    "Likeness",
    "Location",
    "MatingRule",
    "Measurement",
    "Member",
    "Move",
    "Opinion",
    "Part",
    "PartMark",
    "Party",
    "Patent",
    "PatentFigure",
    "Photo",
    "PhotoSpot",
    "Plan",
    "Position",
    "PositionSpot",
    "PrintedSheet",
    "PrintedTag",
    "ProvenanceEvent",
    "ReferenceCharacter",
    "Removal",
    "Role",
    "SearchEntry",
    "SeenApart",
    "Source",
    "SourceFile",
    "Specification",
    "StatedLine",
    "StockTake",
    "StockTakeLine",
    "Trial",
    "Vehicle",
    "VehicleClass",
    "Visit",
    "Want",
]
