"""Limits of characteristics, and what is refused."""

from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from catalog.models import Specification
from catalog.operations.specifications import (
    add_specification,
    change_specification,
    remove_specification,
)
from tests.factories import (
    CharacteristicFactory,
    PositionFactory,
    SourceFactory,
    SpecificationFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def bore():
    return CharacteristicFactory(name="bore")


@pytest.fixture
def class_e(bore):
    position = PositionFactory(
        code="L1", component=bore.component, vehicle_class__designation="Class E"
    )
    return position.vehicle_class


def test_specification_is_kept_with_the_source_behind_it(curator, class_e, bore):
    row = add_specification(
        vehicle_class=class_e,
        characteristic=bore,
        position=class_e.positions.get(),
        lower_mm=Decimal("63.5"),
        worn_upper_mm=Decimal(66),
        source=SourceFactory(title="Works drawing 27"),
        locator="sheet 2",
        by=curator,
    )

    assert (row.lower_mm, row.upper_mm, row.worn_upper_mm) == (Decimal("63.5"), None, Decimal(66))
    assert str(row.citations.get()) == "Works drawing 27, sheet 2"


@pytest.mark.parametrize(
    ("limits", "words"),
    [
        ({}, "Give a lower or an upper limit"),
        ({"lower_mm": 64, "upper_mm": 64}, "Both limits are 64 mm, and no piece could be shown"),
        ({"lower_mm": 64, "upper_mm": 63}, "The upper limit is below the lower limit"),
        ({"lower_mm": 63, "worn_lower_mm": 64}, "when worn is tighter than the limit as new"),
        ({"upper_mm": 63, "worn_lower_mm": 64}, "The lower limit when worn is above the upper"),
    ],
)
def test_specification_refuses_crossed_or_missing_limits(curator, class_e, bore, limits, words):
    with pytest.raises(ValidationError, match=words):
        add_specification(vehicle_class=class_e, characteristic=bore, by=curator, **limits)


@pytest.mark.parametrize(
    "crossed",
    [
        {"lower_mm": None, "upper_mm": 95, "worn_lower_mm": 99},
        {"lower_mm": 95, "upper_mm": None, "worn_upper_mm": 90},
        {"lower_mm": None, "upper_mm": None, "worn_lower_mm": 95, "worn_upper_mm": 90},
    ],
)
def test_database_itself_refuses_limits_of_wear_that_cross(class_e, bore, crossed):
    row = SpecificationFactory(vehicle_class=class_e, characteristic=bore)

    with pytest.raises(IntegrityError), transaction.atomic():
        Specification.objects.filter(pk=row.pk).update(**crossed)


def test_specification_is_refused_twice_at_one_place(curator, class_e, bore):
    where = {"vehicle_class": class_e, "characteristic": bore, "lower_mm": 63, "by": curator}
    add_specification(**where)
    add_specification(**where, position=class_e.positions.get())

    with pytest.raises(ValidationError, match="already limits for this characteristic here"):
        add_specification(**where)


@pytest.mark.parametrize(
    ("foreign", "words"),
    [
        (lambda bore: {"position": PositionFactory(code="B")}, "that is of another component"),
        (
            lambda bore: {"position": PositionFactory(code="B", component=bore.component)},
            "is not a position of Class E",
        ),
        (lambda bore: {"vehicle": VehicleFactory(label="Kestrel")}, "Kestrel is not of Class E"),
        (
            lambda bore: {
                "position": PositionFactory(
                    component=bore.component,
                    vehicle_class=None,
                    vehicle=VehicleFactory(label="Dunlin"),
                )
            },
            "is on Dunlin only",
        ),
    ],
)
def test_specification_refuses_what_does_not_belong(curator, class_e, bore, foreign, words):
    with pytest.raises(ValidationError, match=words):
        add_specification(
            vehicle_class=class_e, characteristic=bore, lower_mm=63, by=curator, **foreign(bore)
        )


def test_specification_of_a_derived_class_may_name_a_position_of_its_base(curator, class_e, bore):
    derived = VehicleClassFactory(based_on=class_e)

    row = add_specification(
        vehicle_class=derived,
        characteristic=bore,
        position=class_e.positions.get(),
        vehicle=VehicleFactory(vehicle_class=derived),
        lower_mm=63,
        by=curator,
    )

    assert row.position.code == "L1"


def test_change_specification_adds_a_citation_and_checks_again(curator, class_e, bore):
    row = SpecificationFactory(vehicle_class=class_e, characteristic=bore)

    change_specification(
        row, {"upper_mm": Decimal(65), "source": SourceFactory(), "locator": ""}, by=curator
    )
    with pytest.raises(ValidationError):
        change_specification(row, {"vehicle": VehicleFactory()}, by=curator)

    row.refresh_from_db()
    assert (row.upper_mm, row.vehicle, row.citations.count()) == (Decimal(65), None, 1)


def test_removed_specification_is_remembered(curator):
    row = SpecificationFactory()

    remove_specification(row, by=curator)

    assert not Specification.objects.exists()
    assert Specification.history.filter(history_type="-").get().history_user == curator


def test_limits_are_named_without_empty_decimals():
    row = SpecificationFactory(
        characteristic__name="bore", lower_mm=Decimal("63.500000000"), upper_mm=None
    )

    assert str(row) == "bore 63.5– mm"
