"""Measurements with the doubt of their instrument."""

import math
from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Measurement
from catalog.operations.measurements import record_measurement, take_back_measurement
from catalog.reckoning.lengths import parse_length
from tests.factories import (
    CharacteristicFactory,
    ComponentFactory,
    InstrumentFactory,
    PartFactory,
)

pytestmark = pytest.mark.django_db
LENGTH = parse_length("3 3/4 in")


@pytest.fixture
def box(db):
    box = ComponentFactory(name="journal box")
    for name in ("journal bore", "length over all"):
        CharacteristicFactory(component=box, name=name)
    return box


def test_measurement_keeps_the_words_and_the_value(member):
    reading = record_measurement(PartFactory(), name="bore", length=LENGTH, by=member)

    assert (reading.text, reading.value_mm) == ("3 3/4 in", Decimal("95.25"))
    assert reading.resolution_mm == Decimal("6.35")
    assert (reading.measured_by, reading.characteristic) == (member, None)


def test_uncertainty_comes_from_the_division_that_was_typed(member):
    reading = record_measurement(PartFactory(), name="bore", length=LENGTH, by=member)

    # JCGM 100, F.2.2.1: a division of 1/4 in is 6.35/√12 mm.
    assert float(reading.uncertainty_mm) == pytest.approx(6.35 / math.sqrt(12), abs=1e-8)


def test_uncertainty_joins_instrument_and_allowance(member):
    rule = InstrumentFactory(uncertainty_mm=Decimal("0.3"))
    fine = parse_length("95.25 mm")

    reading = record_measurement(
        PartFactory(), name="bore", length=fine, instrument=rule, allowance_mm=1, by=member
    )

    assert float(reading.uncertainty_mm) == pytest.approx(math.hypot(0.3, 1 / math.sqrt(3)))
    assert reading.value_mm == Decimal("95.25")


def test_uncertainty_that_is_stated_takes_the_place_of_all(member):
    reading = record_measurement(
        PartFactory(), name="bore", length=LENGTH, uncertainty_mm=Decimal("0.05"), by=member
    )

    assert reading.uncertainty_mm == Decimal("0.05")


@pytest.mark.parametrize(
    ("extra", "field", "words"),
    [
        ({"uncertainty_mm": Decimal(0)}, "uncertainty_mm", "No reading is perfect"),
        ({"uncertainty_mm": Decimal(-1)}, "uncertainty_mm", "No reading is perfect"),
        ({"allowance_mm": Decimal(-1)}, "allowance_mm", "An allowance is nothing or more"),
        ({"length": parse_length("0 mm")}, "length", "“0 mm” is no size"),
        ({"length": parse_length("0.000000001 mm")}, "length", "finer than any tool reads"),
        ({"length": parse_length("5.00000000001 mm")}, "length", "finer than any tool reads"),
        ({"length": parse_length("1000000000 mm")}, "length", "is 1000 km"),
        ({"name": " "}, "name", "Say what was measured"),
    ],
)
def test_measurement_refuses_what_cannot_be(member, extra, field, words):
    with pytest.raises(ValidationError, match=words) as refusal:
        record_measurement(PartFactory(), **{"name": "bore", "length": LENGTH} | extra, by=member)

    assert [*refusal.value.message_dict] == [field]
    assert not Measurement.objects.exists()


def test_who_wrote_a_reading_down_can_take_it_back(member):
    reading = record_measurement(PartFactory(), name="bore", length=LENGTH, by=member)

    take_back_measurement(reading, by=member)

    assert not Measurement.objects.kept().exists()
    assert reading.history.count() == 2


def test_reading_of_another_is_taken_back_by_a_curator_only(member, curator):
    reading = record_measurement(PartFactory(), name="bore", length=LENGTH, by=curator)

    with pytest.raises(ValidationError, match="Only who wrote it down"):
        take_back_measurement(reading, by=member)

    assert take_back_measurement(reading, by=curator).is_withdrawn


def test_name_that_the_component_knows_becomes_its_characteristic(member, box):
    part = PartFactory(component=box, identification_status="proposed")

    reading = record_measurement(part, name="Journal Bore", length=LENGTH, by=member)

    assert reading.characteristic == box.characteristics.get(name="journal bore")


def test_characteristic_of_a_broader_component_will_do(member, box):
    narrow = ComponentFactory(broader=box)
    part = PartFactory(component=narrow, identification_status="proposed")
    bore = box.characteristics.get(name="journal bore")

    reading = record_measurement(part, characteristic=bore, length=LENGTH, by=member)

    assert reading.name == "journal bore"


def test_characteristic_that_the_component_lacks_is_refused_naming_those_it_has(member, box):
    part = PartFactory(component=box, identification_status="proposed")
    spring_rate = CharacteristicFactory(name="coil diameter")

    with pytest.raises(ValidationError) as refusal:
        record_measurement(part, characteristic=spring_rate, length=LENGTH, by=member)

    assert refusal.value.message_dict["name"] == [
        "A journal box has no “coil diameter”. It is measured at: journal bore, length over all. "
        "A curator can add a characteristic to the component."
    ]


def test_component_without_characteristics_takes_free_names(member):
    part = PartFactory(component=ComponentFactory(), identification_status="proposed")

    assert record_measurement(part, name="width", length=LENGTH, by=member).name == "width"


@pytest.mark.parametrize("field", ["allowance_mm", "uncertainty_mm"])
def test_doubt_as_large_as_the_reading_is_refused(member, field):
    with pytest.raises(ValidationError, match="as much as the reading itself"):
        record_measurement(
            PartFactory(),
            name="bore",
            length=parse_length("100 mm"),
            by=member,
            **{field: Decimal(100)},
        )
