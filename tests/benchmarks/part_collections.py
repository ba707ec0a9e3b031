"""Make a large collection of parts quickly, past the operations, for benchmarks only."""

import datetime as dt
from random import Random

from catalog.models import (
    Accession,
    Component,
    ComponentAlias,
    Location,
    Member,
    Part,
    Photo,
    SearchEntry,
    Vehicle,
    VehicleClass,
)
from catalog.models.members import Role
from catalog.reckoning.numbers import AccessionNumber

WHEN = dt.datetime(2026, 4, 1, 9, 0, tzinfo=dt.UTC)
KINDS = ["journal box", "bearing brass", "drawhead", "hinge", "latch", "spring", "hanger", "strap"]
WORDS = ["bent", "cracked", "painted", "cast", "forged", "rusted", "clean", "worn", "spare", "left"]
BATCH = 5000


def make_collection(*, parts: int, vehicles: int, components: int = 260) -> Member:
    """Fill an empty catalog with parts, each with two photos, and return a member to sign in."""
    random = Random(1889)
    member = Member.objects.create(username="bench", role=Role.VOLUNTEER)
    kinds = _components(components)
    classes = VehicleClass.objects.bulk_create(
        VehicleClass(designation=f"Class {n}", slug=f"class-{n}") for n in range(20)
    )
    Vehicle.objects.bulk_create(
        Vehicle(label=f"Wagon {n}", slug=f"wagon-{n}", vehicle_class=random.choice(classes))
        for n in range(vehicles)
    )
    places = _locations(300)
    gifts = Accession.objects.bulk_create(Accession(year=2026, serial=n + 1) for n in range(400))
    for start in range(0, parts, BATCH):
        rows = [
            _part(number, random, (kinds, classes, places, gifts), member)
            for number in range(start, min(start + BATCH, parts))
        ]
        _store(Part.objects.bulk_create(rows), member)
    return member


def _components(count: int) -> list[Component]:
    kinds = Component.objects.bulk_create(
        Component(name=f"{KINDS[n % len(KINDS)]} {n}", slug=f"component-{n}") for n in range(count)
    )
    ComponentAlias.objects.bulk_create(
        ComponentAlias(component=kind, name=f"alias {kind.pk}") for kind in kinds
    )
    return kinds


def _locations(count: int) -> list[Location]:
    places = Location.objects.bulk_create(
        Location(name=f"Shelf {n}", path=f"Shed › Shelf {n}", kind="shelf") for n in range(count)
    )
    for place in places:
        place.lineage = f"/{place.pk}/"
    Location.objects.bulk_update(places, ["lineage"])
    return places


def _part(number: int, random: Random, choices: tuple, member: Member) -> Part:
    kinds, classes, places, gifts = choices
    gift, item = gifts[number % len(gifts)], number // len(gifts) + 1
    name = AccessionNumber(2026, gift.serial, item)
    kind = random.choice(kinds) if random.random() < 0.8 else None
    return Part(
        accession=gift,
        item=item,
        number=str(name),
        number_sort=name.sort_key,
        description=f"{random.choice(WORDS)} {random.choice(KINDS)} {random.randrange(1000)}",
        usability=random.choice(Part.Usability.values),
        component=kind,
        vehicle_class=random.choice(classes) if kind else None,
        identification_status=random.choice(["proposed", "agreed"]) if kind else "unidentified",
        location=random.choice(places),
        recorded_at=WHEN,
        recorded_by=member,
    )


def _store(parts: list[Part], member: Member) -> None:
    Photo.objects.bulk_create(
        Photo(
            part=part,
            original="originals/none.jpg",
            sha256=f"{part.pk:062d}{turn:02d}",
            media_type="image/jpeg",
            byte_size=1000,
            width=1600,
            height=1200,
            is_main=turn == 0,
            added_at=WHEN,
            added_by=member,
        )
        for part in parts
        for turn in range(2)
    )
    SearchEntry.objects.bulk_create(_entry(part) for part in parts)


def _entry(part: Part) -> SearchEntry:
    what = str(part.component) if part.component else part.description
    title = f"{part.label} {what}"
    words = " ".join([title, part.description])
    return SearchEntry(
        kind="part", object_id=part.pk, title=title, detail=part.description, words=words
    )
