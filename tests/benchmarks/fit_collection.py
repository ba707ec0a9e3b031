"""Make measured parts and open positions past the operations; how many could fit stays the same.

Sizes are spread over a range that grows with the collection, so that about as many parts lie
within reach of the one that is asked about, however many there are.
"""

import datetime as dt
from decimal import Decimal
from pathlib import Path
from random import Random

from django.conf import settings
from django.core.management import call_command

from catalog.models import (
    Characteristic,
    Component,
    MatingRule,
    Measurement,
    Member,
    Part,
    Position,
    Specification,
    Vehicle,
    VehicleClass,
)
from catalog.models.members import Role

WHEN = dt.datetime(2026, 4, 1, 9, 0, tzinfo=dt.UTC)
KINDS = ("wheelset", "bearing brass", "journal box", "drawhead", "hinge")
# What each kind's size is more than the journal that it goes with, in mm.
OVER = {"wheelset": 0.0, "bearing brass": 1.0, "journal box": 25.0, "drawhead": 60.0, "hinge": 90.0}
APART_MM, CLASS_APART_MM, LEAST_MM = 0.05, 5.0, 40.0
PER_VEHICLE, VEHICLES_A_CLASS = 4, 5
BATCH = 5_000


def make(parts: int, positions: int) -> Member:
    """Fill an empty catalog and return a member to sign in."""
    file = Path(settings.DATABASES["default"]["NAME"])
    for old in file.parent.glob(f"{file.name}*"):
        old.unlink()
    call_command("migrate", verbosity=0)
    member = Member.objects.create(username="walt", role=Role.VOLUNTEER)
    sizes, lengths = _kinds()
    _classes(sizes, positions // (PER_VEHICLE * len(KINDS) * VEHICLES_A_CLASS))
    random = Random(1889)
    for start in range(0, parts, BATCH):
        _parts(range(start, min(start + BATCH, parts)), (sizes, lengths), random, member)
    return member


def _kinds() -> tuple[list[Characteristic], list[Characteristic]]:
    kinds = Component.objects.bulk_create(Component(name=name, slug=name) for name in KINDS)
    sizes = Characteristic.objects.bulk_create(
        Characteristic(component=kind, name=f"{kind} size", sequence=1) for kind in kinds
    )
    lengths = Characteristic.objects.bulk_create(
        Characteristic(component=kind, name=f"{kind} length", sequence=2) for kind in kinds
    )
    least, most, worn = Decimal(0), Decimal("2.4"), Decimal("4.8")
    MatingRule.objects.create(
        outer=sizes[1], inner=sizes[0], least_mm=least, greatest_mm=most, worn_greatest_mm=worn
    )
    MatingRule.objects.create(
        outer=sizes[2], inner=sizes[0], least_mm=Decimal(19), greatest_mm=Decimal(32)
    )
    return sizes, lengths


def _classes(sizes: list[Characteristic], count: int) -> None:
    classes = VehicleClass.objects.bulk_create(
        VehicleClass(designation=f"Class {n}", slug=f"class-{n}") for n in range(count)
    )
    Vehicle.objects.bulk_create(
        Vehicle(
            label=f"Wagon {n}",
            slug=f"wagon-{n}",
            vehicle_class=classes[n % count],
            restoration_order=n % 30_000,
        )
        for n in range(count * VEHICLES_A_CLASS)
    )
    Position.objects.bulk_create(
        Position(vehicle_class=kind, component=size.component, code=code)
        for kind in classes
        for size in sizes
        for code in ("L1", "R1", "L2", "R2")
    )
    Specification.objects.bulk_create(
        Specification(
            vehicle_class=kind,
            characteristic=size,
            lower_mm=_middle(number, size) - Decimal("0.8"),
            upper_mm=_middle(number, size) + Decimal("0.8"),
            worn_lower_mm=_middle(number, size) - Decimal("2.5"),
            worn_upper_mm=_middle(number, size) + Decimal("2.5"),
        )
        for number, kind in enumerate(classes)
        for size in sizes
    )


def _middle(number: int, size: Characteristic) -> Decimal:
    return Decimal(LEAST_MM + number * CLASS_APART_MM + OVER[size.component.name])


def _parts(
    numbers: range,
    measured: tuple[list[Characteristic], list[Characteristic]],
    random: Random,
    member: Member,
) -> None:
    rows = Part.objects.bulk_create(
        Part(
            number=f"2026.1.{n + 1}",
            number_sort=f"2026.00001.{n + 1:06d}",
            component=measured[0][n % len(KINDS)].component,
            identification_status="agreed",
            usability="ready",
            recorded_at=WHEN,
            recorded_by=member,
        )
        for n in numbers
    )
    readings = []
    for n, part in zip(numbers, rows, strict=True):
        size, length = (each[n % len(KINDS)] for each in measured)
        value = LEAST_MM + (n // len(KINDS)) * APART_MM + OVER[size.component.name]
        readings += [
            _reading(part, size, value + random.gauss(0, 0.05), member),
            _reading(part, length, 100 + random.random() * 50, member),
        ]
    Measurement.objects.bulk_create(readings)


def _reading(part: Part, at: Characteristic, value: float, member: Member) -> Measurement:
    return Measurement(
        part=part,
        characteristic=at,
        name=at.name,
        text=f"{value:.2f} mm",
        value_mm=Decimal(f"{value:.2f}"),
        resolution_mm=Decimal("0.01"),
        uncertainty_mm=Decimal("0.03"),
        measured_at=WHEN,
        measured_by=member,
    )
