"""Parts of a generated collection: photos, marks, readings, opinions, moves, and fittings."""

from collections.abc import Iterable
from decimal import Decimal
from itertools import count, islice
from random import Random

from catalog.models import (
    Accession,
    Component,
    Fitting,
    Identification,
    Instrument,
    Measurement,
    Member,
    Move,
    Opinion,
    Part,
    PartMark,
    Photo,
    SearchEntry,
    VehicleClass,
)
from catalog.reckoning.numbers import AccessionNumber
from tests.benchmarks.collection_kinds import Kinds, nominal, photo_fields
from tests.factories.moments import LONG_AGO

WORDS = ("bent", "cracked", "painted", "cast", "forged", "rusted", "clean", "worn", "spare", "left")
NOUNS = ("casting", "bracket", "pin", "rod", "plate", "ring", "lever", "bolt")
BATCH = 5_000
ACCESSIONS = 400


class Maker:
    """Make parts of ``kinds``, the first of them for the positions that are filled."""

    def __init__(self, kinds: Kinds, members: list[Member]) -> None:
        self.random = Random(1914)
        self.kinds = kinds
        self.members = members
        self.instrument = Instrument.objects.create(
            slug="bench-caliper", name="caliper", uncertainty_mm=Decimal("0.05")
        )
        self.accessions = Accession.objects.bulk_create(
            Accession(year=2026, serial=n + 1, summary="a crate") for n in range(ACCESSIONS)
        )
        self.filled = [
            (vehicle, position)
            for vehicle in kinds.vehicles
            for position in kinds.positions[vehicle.vehicle_class_id][::2]
        ]

    def parts(self) -> Iterable[Part]:
        classes = {one.pk: one for one in self.kinds.classes}
        for number in count():
            if number < len(self.filled):
                position = self.filled[number][1]
                own = classes[position.vehicle_class_id]
                yield self._part(number, position.component, own, "ready")
            else:
                kind = self.random.choice([None, *self.kinds.components * 4])
                own = self.random.choice([None, *self.kinds.classes]) if kind else None
                yield self._part(number, kind, own, self.random.choice(Part.Usability.values))

    def _part(
        self, number: int, kind: Component | None, own: VehicleClass | None, usability: str
    ) -> Part:
        gift, item = self.accessions[number % ACCESSIONS], number // ACCESSIONS + 1
        name = AccessionNumber(gift.year, gift.serial, item)
        words = (self.random.choice(WORDS), self.random.choice(NOUNS), self.random.randrange(1000))
        return Part(
            accession=gift,
            item=item,
            number=str(name),
            number_sort=name.sort_key,
            description="{} {} {}".format(*words),
            quantity=1 if usability == "ready" else self.random.choice((1, 1, 1, 12)),
            usability=usability,
            component=kind,
            vehicle_class=own,
            identification_status=self.random.choice(("proposed", "agreed"))
            if kind
            else "unidentified",
            location=self.random.choice(self.kinds.locations),
            recorded_at=LONG_AGO,
            recorded_by=self.members[0],
        )

    def store(self, parts: list[Part]) -> None:
        by = self.members[0]
        Part.objects.bulk_create(parts)
        Part.history.bulk_history_create(parts, default_user=by, default_date=LONG_AGO)
        Photo.objects.bulk_create(
            Photo(**photo_fields(f"{part.pk} {turn}", by), part=part, is_main=turn == 0)
            for part in parts
            for turn in range(2)
        )
        marks = PartMark.objects.bulk_create(self._marks(parts))
        Measurement.objects.bulk_create(self._readings(parts))
        opinions = Identification.objects.bulk_create(self._opinions(parts))
        Opinion.objects.bulk_create(self._agreements(opinions))
        Move.objects.bulk_create(
            Move(part=part, to_location=part.location, moved_at=LONG_AGO, moved_by=by)
            for part in parts
        )
        SearchEntry.objects.bulk_create(_entries(parts, marks))

    def _marks(self, parts: list[Part]) -> Iterable[PartMark]:
        for part in parts[::2]:
            letters = f"{self.random.choice('ABCDEFG')}{self.random.randrange(10)}"
            yield PartMark(part=part, text=f"{letters}-{self.random.randrange(1000)}")

    def _readings(self, parts: list[Part]) -> Iterable[Measurement]:
        for part in parts:
            if part.component is None:
                continue
            value = nominal(part.component) + Decimal(f"{self.random.gauss(0, 0.6):.3f}")
            yield Measurement(
                part=part,
                characteristic=self.kinds.characteristics[part.component_id],
                name="bore",
                text=f"{value} mm",
                value_mm=value,
                resolution_mm=Decimal("0.01"),
                instrument=self.instrument,
                uncertainty_mm=Decimal("0.05"),
                measured_at=LONG_AGO,
                measured_by=self.members[0],
            )

    def _opinions(self, parts: list[Part]) -> Iterable[Identification]:
        for part in parts:
            if part.component is not None:
                yield Identification(
                    part=part,
                    component=part.component,
                    vehicle_class=part.vehicle_class,
                    made_at=LONG_AGO,
                    made_by=self.members[0],
                )

    def _agreements(self, opinions: list[Identification]) -> Iterable[Opinion]:
        for opinion in opinions:
            if opinion.part.identification_status == "agreed":
                yield Opinion(
                    identification=opinion, agrees=True, made_at=LONG_AGO, made_by=self.members[1]
                )

    def fit(self) -> None:
        """Put the first parts where they belong."""
        first = Part.objects.order_by("pk").values_list("pk", flat=True)[: len(self.filled)]
        Fitting.objects.bulk_create(
            Fitting(
                vehicle=vehicle,
                position=position,
                part_id=part,
                state=Fitting.State.FITTED,
                begun_at=LONG_AGO,
                changed_at=LONG_AGO,
                changed_by=self.members[1],
            )
            for part, (vehicle, position) in zip(first, self.filled, strict=True)
        )


def make_parts(kinds: Kinds, parts: int, members: list[Member], *, is_fitted: bool) -> None:
    maker = Maker(kinds, members)
    if not is_fitted:
        maker.filled = []
    endless = iter(maker.parts())
    for start in range(0, parts, BATCH):
        maker.store(list(islice(endless, min(BATCH, parts - start))))
    maker.fit()


def _entries(parts: list[Part], marks: list[PartMark]) -> Iterable[SearchEntry]:
    text = {mark.part_id: mark.text for mark in marks}
    for part in parts:
        title = f"{part.label} {part.component or part.description}"
        words = " ".join((title, part.description, part.description, text.get(part.pk, "")))
        yield SearchEntry(
            kind="part", object_id=part.pk, title=title, detail=part.description, words=words
        )
