"""Recording the documents behind statements, and keeping the files that belong to them."""

import hashlib
from collections.abc import Mapping
from pathlib import PurePath
from typing import Any

from django.core.exceptions import ValidationError
from django.core.files import File
from django.core.files.storage import default_storage
from django.db import transaction
from django.template.defaultfilters import filesizeformat

from catalog.models import Member, Source, SourceFile
from catalog.operations.dates import with_date_read
from catalog.operations.parties import party_meant
from catalog.operations.record import change, record_new, remove

LARGEST = 200 * 1024 * 1024


@transaction.atomic
def record_source(values: Mapping[str, Any], *, by: Member) -> Source:
    """Record a source with ``values`` by the names of its fields; only a title is needed.

    ``date_text`` is its date as people say it; ``holder`` and ``speaker`` are parties or names,
    and a name nobody has yet is recorded as a new party.
    """
    return record_new(Source, _read(values, by), by=by)


@transaction.atomic
def change_source(
    source: Source, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> Source:
    """Change a source; refuse when the record has moved on since ``seen``."""
    return change(source, _read(values, by), by=by, seen=seen)


def add_source_file(
    source: Source,
    file: File,  # type: ignore[type-arg]
    *,
    name: str = "",
    by: Member,
) -> SourceFile:
    """Keep ``file`` with the source byte for byte, under ``name`` or the name it has.

    Refuse an empty file, one beyond 200 MB, and the same file twice at one source.
    """
    called = PurePath(name or str(file.name or "") or "file").name[:200]
    size = file.size
    if not size:
        raise ValidationError({"file": f"“{called}” is empty: nothing was kept."})
    if size > LARGEST:
        raise ValidationError(
            {"file": f"“{called}” has {filesizeformat(size)}; at most 200 MB can be kept."}
        )
    digest = _sha256(file)
    _refuse_twice(source, digest)
    # Files lie under their own content's name, so a refused record leaves nothing to mend.
    place = f"sources/{digest[:2]}/{digest}{PurePath(called).suffix.lower()[:12]}"
    if not default_storage.exists(place):
        default_storage.save(place, file)
    values = {"source": source, "file": place, "name": called}
    return record_new(
        SourceFile, {**values, "sha256": digest, "byte_size": size}, by=by, why="file added"
    )


@transaction.atomic
def remove_source_file(file: SourceFile, *, by: Member) -> None:
    """Take a file off its source; its bytes stay in the store, its name in the history."""
    remove(file, by=by, why="file taken off")


def _read(values: Mapping[str, Any], by: Member) -> dict[str, Any]:
    told = with_date_read(values)
    for name in ("holder", "speaker"):
        if name in told:
            told[name] = party_meant(told[name], name, by=by)
    return told


def _sha256(file: File) -> str:  # type: ignore[type-arg]
    digest = hashlib.sha256()
    for chunk in file.chunks():
        digest.update(chunk)
    file.seek(0)
    return digest.hexdigest()


def _refuse_twice(source: Source, digest: str) -> None:
    if former := source.files.filter(sha256=digest).first():
        raise ValidationError(
            {"file": f"This file is already kept with the source, as “{former.name}”."}
        )
