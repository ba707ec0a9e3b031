"""Reading a list of parts in: kept as it came, understood by people, recorded in one go."""

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.core.exceptions import ValidationError
from django.core.files.base import ContentFile
from django.db import transaction
from django.utils import timezone

from catalog.models import Accession, ImportBatch, Location, Member
from catalog.operations.imported_parts import Whence, bundles_of, record_bundles
from catalog.operations.places import record_location
from catalog.operations.record import change, record_new
from catalog.queries.components import spelling
from catalog.queries.imports import LocationNames, PartReading, known_rows, location_names


@dataclass(frozen=True, slots=True)
class ImportOutcome:
    """How many parts were recorded, and by line why a row was refused."""

    recorded: int
    refused: dict[int, str]


@transaction.atomic
def keep_list(
    name: str,
    data: bytes,
    *,
    by: Member,
    accession: Accession | None = None,
    at: datetime | None = None,
) -> ImportBatch:
    """Keep an uploaded list byte for byte, to be understood and read in afterwards."""
    digest = hashlib.sha256(data).hexdigest()
    told = {
        "name": name[-200:],
        "file": ContentFile(data, name=f"imports/{digest[:2]}/{digest}"),
        "sha256": digest,
        "accession": accession,
        "uploaded_at": at or timezone.now(),
        "uploaded_by": by,
    }
    return record_new(ImportBatch, told, by=by, why="uploaded")


@transaction.atomic
def choose_columns(
    batch: ImportBatch, fields: Sequence[str], *, by: Member, unit: str = ""
) -> ImportBatch:
    """Say what each column of a list means, and which unit a bare length is in."""
    told = {"columns": list(fields), "unit": unit, "refusals": {}}
    return change(batch, told, by=by, why="columns chosen")


@transaction.atomic
def import_parts(
    rows: Iterable[PartReading],
    *,
    batch: ImportBatch,
    by: Member,
    at: datetime | None = None,
) -> ImportOutcome:
    """Record the ``rows`` of ``batch`` as parts, in one transaction.

    A row that is a part already is passed over, so that nothing is recorded twice. What
    the record refuses of one row leaves nothing of that row, and does not touch the others.
    Locations that are not there yet are made. A component becomes an identification by the
    person who reads the list in, which others have still to agree to.
    """
    when = at or timezone.now()
    ImportBatch.objects.select_for_update().get(pk=batch.pk)
    rows = list(rows)
    known = known_rows(rows)
    fresh = [row for row in rows if row.line_number not in known]
    locations, unmade = _locations_of(fresh, by=by)
    placed = [row for row in fresh if row.location not in unmade]
    bundles, refused = bundles_of(placed, Whence(batch, by, when), locations)
    refused |= {row.line_number: unmade[row.location] for row in fresh if row.location in unmade}
    record_bundles(bundles, by=by)
    told = {"imported_at": when, "refusals": {str(line): why for line, why in refused.items()}}
    change(batch, told, by=by, why="read in")
    return ImportOutcome(len(bundles), refused)


def _locations_of(
    rows: Iterable[PartReading], *, by: Member
) -> tuple[dict[str, Location], dict[str, str]]:
    """Find or make the location of each row; say by path why one cannot be made."""
    names = LocationNames.gather()
    made = dict(names.paths)
    found, unmade = {}, {}
    for words in dict.fromkeys(row.location for row in rows if row.location):
        try:
            found[words] = names.find(words) or _made(words, made, by=by)
        except ValidationError as refusal:
            unmade[words] = f"Location “{words}”: {' '.join(refusal.messages)}"
    return found, unmade


@transaction.atomic
def _made(words: str, paths: dict[tuple[str, ...], Location], *, by: Member) -> Location:
    """Make the location at the path in ``words``, with what is missing above it."""
    place: Location | None = None
    here: tuple[str, ...] = ()
    for name in location_names(words):
        here = (*here, spelling(name))
        if here not in paths:
            told = {"name": name, "parent": place, "kind": _kind(name)}
            paths[here] = record_location(told, by=by)
        place = paths[here]
    if place is None:
        raise ValidationError("There is no name in it.")
    return place


def _kind(name: str) -> str:
    """Take the kind of a location from its name, such as rack 2, where it says one."""
    kinds = (kind.value for kind in Location.Kind if kind.value in name.casefold())
    return next(kinds, Location.Kind.SHELF)
