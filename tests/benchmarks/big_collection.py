"""Make the generated collections, past the operations, each in a SQLite file kept for next time."""

from hashlib import sha256
from pathlib import Path

from django.conf import settings
from django.core.management import call_command
from django.db import transaction

from catalog.models import Accession, Component, Location, Member, SearchEntry, Vehicle
from catalog.models.members import Role
from catalog.queries.search_words import SEARCHED, words_of
from tests.benchmarks.admin_settings import BENCH_DIR, COLLECTION
from tests.benchmarks.collection_kinds import make_kinds
from tests.benchmarks.collection_parts import make_parts

SIZES = {
    "large": {"parts": 100_000, "vehicles": 500, "classes": 20, "components": 260},
    "planning": {"parts": 1_000, "vehicles": 20, "classes": 1, "components": 40},
}

SOURCES = ("big_collection.py", "collection_kinds.py", "collection_parts.py")


def prepare() -> Member:
    """Make the collection that the settings name, unless it is there, and return a member."""
    mark = BENCH_DIR / f"{COLLECTION}.txt"
    made_from = _made_from()
    if not mark.exists() or mark.read_text(encoding="utf-8") != made_from:
        mark.unlink(missing_ok=True)
        for old in BENCH_DIR.glob(f"{COLLECTION}.sqlite3*"):
            old.unlink()
        _make(**SIZES[COLLECTION])
        mark.write_text(made_from, encoding="utf-8")
    return Member.objects.get(username="walt")


def _made_from() -> str:
    """Return what changes when the tables change, or the way in which they are filled."""
    here = Path(__file__).parent
    migrations = settings.BASE_DIR / "catalog" / "migrations"
    sources = [*sorted(migrations.glob("0*.py")), *(here / name for name in SOURCES)]
    return sha256(b"".join(source.read_bytes() for source in sources)).hexdigest()


def _make(*, parts: int, vehicles: int, classes: int, components: int) -> None:
    print(f"Making a collection of {parts} parts in {BENCH_DIR}")
    call_command("migrate", verbosity=0)
    with transaction.atomic():
        members = [
            Member.objects.create(username="walt", role=Role.VOLUNTEER),
            Member.objects.create(username="cora", role=Role.CURATOR),
        ]
        kinds = make_kinds(components=components, classes=classes, vehicles=vehicles, by=members[0])
        make_parts(kinds, parts, members, is_fitted=COLLECTION == "large")
        _index()


def _index() -> None:
    for model in (Component, Vehicle, Location, Accession):
        found = ((row.pk, words_of(row)) for row in model.objects.all())
        SearchEntry.objects.bulk_create(
            SearchEntry(
                kind=SEARCHED[model],
                object_id=key,
                title=told.title,
                detail=told.detail,
                words=told.words,
            )
            for key, told in found
        )
