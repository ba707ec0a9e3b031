"""Positions of classes and vehicles, and what is refused."""

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Position
from catalog.operations.positions import (
    PositionLine,
    add_position,
    add_positions,
    change_position,
    remove_position,
)
from tests.factories import (
    ComponentFactory,
    DeviationFactory,
    FittingFactory,
    PositionFactory,
    RemovalFactory,
    SpecificationFactory,
    TrialFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def box():
    return ComponentFactory(name="journal box")


def test_positions_stand_in_the_order_of_entry(curator, box):
    kind = VehicleClassFactory()
    for code in ("r2", " l 1"):
        add_position(vehicle_class=kind, code=code, component=box, by=curator)

    assert [row.code for row in kind.positions.all()] == ["R2", "L1"]


def test_position_belongs_to_a_class_or_to_one_vehicle(curator, box):
    for owners in ({}, {"vehicle_class": VehicleClassFactory(), "vehicle": VehicleFactory()}):
        with pytest.raises(ValidationError, match="a class or to one vehicle"):
            add_position(code="L1", component=box, by=curator, **owners)


def test_position_is_refused_twice(curator, box):
    kind = VehicleClassFactory()
    vehicle = VehicleFactory(label="Wagon 14", vehicle_class=kind)
    add_position(vehicle_class=kind, code="L1", component=box, by=curator)

    with pytest.raises(ValidationError, match="The class already has this position"):
        add_position(vehicle_class=kind, code="l1", component=box, by=curator)
    with pytest.raises(ValidationError, match="Wagon 14 already has position L1 journal box"):
        add_position(vehicle=vehicle, code="l1", component=box, by=curator)


def test_several_positions_are_added_all_or_none(curator, box):
    kind = VehicleClassFactory()
    good = [PositionLine("L1", box, "running gear"), PositionLine("R1", box, is_essential=False)]

    with pytest.raises(ValidationError):
        add_positions(kind, [*good, PositionLine("L1", box)], by=curator)
    assert not kind.positions.exists()

    add_positions(kind, good, by=curator)
    rows = kind.positions.values_list("code", "assembly", "is_essential", "sequence")
    assert list(rows) == [("L1", "running gear", True, 1), ("R1", "", False, 2)]


def test_change_position_keeps_its_place_when_none_is_given(curator, box):
    position = PositionFactory(component=box, sequence=4)

    change_position(position, {"assembly": "body", "sequence": None}, by=curator)

    assert (position.assembly, position.sequence) == ("body", 4)


def test_change_position_refuses_another_component_once_a_part_was_there(curator, box):
    fitting = FittingFactory(position__component=box, state="removed")

    with pytest.raises(ValidationError, match="so it stays a journal box") as problem:
        change_position(fitting.position, {"component": ComponentFactory()}, by=curator)

    assert list(problem.value.error_dict) == ["component"]


def test_change_position_takes_another_component_while_nothing_happened(curator, box):
    position = PositionFactory()

    change_position(position, {"component": box}, by=curator)

    assert Position.objects.get().component == box


@pytest.mark.parametrize(
    ("happening", "words"),
    [
        (FittingFactory, "is or was at it on"),
        (RemovalFactory, "was taken off there on"),
        (TrialFactory, "was tried there on"),
    ],
)
def test_position_stays_once_something_happened_at_it(curator, happening, words):
    position = happening().position

    with pytest.raises(ValidationError, match=words):
        remove_position(position, by=curator)


def test_position_stays_while_a_difference_speaks_of_it(curator):
    position = PositionFactory()
    DeviationFactory(
        vehicle__label="Wagon 3", kind="dropped", position=position, reason="never built with it"
    )

    with pytest.raises(ValidationError, match="Wagon 3 speaks of it"):
        remove_position(position, by=curator)


def test_removed_position_takes_its_limits_along_and_is_remembered(curator):
    row = SpecificationFactory(position=PositionFactory(code="L1"))

    remove_position(row.position, by=curator)

    assert not Position.objects.exists()
    former = type(row).history.filter(history_type="-").get()
    assert (former.history_user, former.id) == (curator, row.pk)
