"""How vehicles differ from their class and classes from their base, and what is refused."""

import pytest
from django.core.exceptions import ValidationError

from catalog.operations.deviations import change_deviation, record_deviation, remove_deviation
from catalog.queries.positions import positions_of, positions_of_class
from tests.factories import (
    FittingFactory,
    PositionFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def position():
    return PositionFactory(code="L1", vehicle_class__designation="Class E")


@pytest.fixture
def wagon(position):
    return VehicleFactory(label="Wagon 3", vehicle_class=position.vehicle_class)


def test_dropped_position_is_no_longer_of_the_vehicle_until_taken_back(curator, position, wagon):
    dropped = record_deviation(
        vehicle=wagon, kind="dropped", position=position, reason="plated over", by=curator
    )
    assert positions_of(wagon) == ()

    remove_deviation(dropped, by=curator)
    assert positions_of(wagon) == (position,)


def test_class_drops_a_position_of_its_base(curator, position):
    derived = VehicleClassFactory(based_on=position.vehicle_class)

    record_deviation(
        vehicle_class=derived, kind="dropped", position=position, reason="no brake", by=curator
    )

    assert positions_of_class(derived) == ()
    assert positions_of_class(position.vehicle_class) == (position,)


def test_dropping_is_refused_while_a_part_is_there(curator, position, wagon):
    FittingFactory(vehicle=wagon, position=position, state="trial")
    drop = {"kind": "dropped", "position": position, "reason": "gone", "by": curator}

    with pytest.raises(ValidationError, match="is on trial there"):
        record_deviation(vehicle=wagon, **drop)


def test_class_does_not_drop_a_position_that_holds_a_part(curator, position):
    derived = VehicleClassFactory(based_on=position.vehicle_class)
    FittingFactory(
        vehicle=VehicleFactory(label="Wagon 9", vehicle_class=derived), position=position
    )

    with pytest.raises(ValidationError, match="is at it on Wagon 9"):
        record_deviation(
            vehicle_class=derived, kind="dropped", position=position, reason="gone", by=curator
        )


@pytest.mark.parametrize(
    ("told", "field"),
    [
        ({"kind": "noted", "reason": " "}, "reason"),
        ({"kind": "dropped", "reason": "gone"}, "position"),
        ({"kind": "added", "reason": "a second tap", "position": "of the class"}, "position"),
        ({"kind": "dropped", "reason": "gone", "position": "foreign"}, "position"),
    ],
)
def test_difference_is_refused_beside_its_field(curator, position, wagon, told, field):
    which = {"of the class": position, "foreign": PositionFactory()}
    if "position" in told:
        told = {**told, "position": which[told["position"]]}

    for owner in ({"vehicle": wagon}, {"vehicle_class": VehicleClassFactory()}):
        with pytest.raises(ValidationError) as problem:
            record_deviation(by=curator, **owner, **told)
        assert list(problem.value.error_dict) == [field]


def test_class_removes_its_own_position_instead_of_dropping_it(curator, position):
    with pytest.raises(ValidationError, match="remove the position itself"):
        record_deviation(
            vehicle_class=position.vehicle_class,
            kind="dropped",
            position=position,
            reason="gone",
            by=curator,
        )


def test_added_position_is_explained(curator, wagon):
    own = PositionFactory(vehicle_class=None, vehicle=wagon)

    added = record_deviation(
        vehicle=wagon, kind="added", position=own, reason="sand pipe", since="1911", by=curator
    )

    assert (added.position, added.since) == (own, "1911")


def test_difference_belongs_to_somebody(curator):
    with pytest.raises(ValidationError, match="of a vehicle or of a class"):
        record_deviation(kind="noted", reason="longer hangers", by=curator)


def test_change_deviation_changes_the_reason_only(curator, wagon):
    noted = record_deviation(vehicle=wagon, kind="noted", reason="longer hangers", by=curator)

    change_deviation(noted, {"reason": "longer brake hangers", "kind": "added"}, by=curator)

    assert (noted.reason, noted.kind) == ("longer brake hangers", "noted")
