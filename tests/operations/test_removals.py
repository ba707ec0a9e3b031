"""Taking parts off a vehicle in order, and putting them back."""

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Fitting, Move
from catalog.operations.fittings import fit_part
from catalog.operations.removals import put_back, remove_part
from tests.factories import (
    ComponentFactory,
    LocationFactory,
    PartFactory,
    PositionFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def engine(db):
    return VehicleFactory(label="Kestrel")


@pytest.fixture
def fitted(engine, curator):
    """Return a function that fits a new part at a new position."""
    hanger = ComponentFactory(name="brake hanger")

    def fit(code, **values):
        place = PositionFactory(vehicle_class=engine.vehicle_class, component=hanger, code=code)
        part = PartFactory(component=hanger, identification_status="agreed", **values)
        return fit_part(part, engine, place, by=curator)

    return fit


def test_removals_are_numbered_in_the_order_of_taking_off(fitted, curator):
    shelf = LocationFactory()

    first = remove_part(fitted("L1"), orientation="long arm up", location=shelf, by=curator)
    second = remove_part(fitted("R1"), shims="two of 1/16 in", by=curator)

    assert (first.sequence, second.sequence) == (1, 2)
    assert (first.orientation, second.shims) == ("long arm up", "two of 1/16 in")
    first.part.refresh_from_db()
    assert first.part.location == shelf
    assert Move.objects.get().to_location == shelf
    assert set(Fitting.objects.values_list("state", flat=True)) == {"removed"}


def test_part_cannot_be_taken_off_twice(fitted, curator):
    fitting = fitted("L1")
    remove_part(fitting, by=curator)

    with pytest.raises(ValidationError, match="is not fitted at L1 of Kestrel any more: removed"):
        remove_part(fitting, by=curator)


def test_put_back_fits_it_where_it_came_off(fitted, engine, curator):
    removal = remove_part(fitted("L1"), location=LocationFactory(), by=curator)

    fitting = put_back(removal, by=curator)

    assert (fitting.state, fitting.position, fitting.vehicle) == (
        "fitted",
        removal.position,
        engine,
    )
    assert removal.put_back_at == fitting.changed_at
    with pytest.raises(ValidationError, match="has already been put back"):
        put_back(removal, by=curator)


def test_piece_of_a_lot_is_not_put_elsewhere_than_its_lot(fitted, curator):
    fitting = fitted("L1", quantity=2, location=LocationFactory(name="Bin 3"))

    with pytest.raises(ValidationError) as refused:
        remove_part(fitting, location=LocationFactory(), by=curator)

    assert refused.value.message_dict == {
        "location": [
            f"{fitting.part} is a lot of 2, kept at Bin 3. "
            "Split the piece off to keep it elsewhere."
        ]
    }
    fitting.refresh_from_db()
    assert fitting.state == "fitted"


def test_put_back_is_refused_when_the_position_is_taken(fitted, engine, curator):
    removal = remove_part(fitted("L1"), by=curator)
    other = PartFactory(component=removal.part.component, identification_status="agreed")
    fit_part(other, engine, removal.position, by=curator)

    with pytest.raises(ValidationError, match=f"L1 of Kestrel already has {other}, fitted by"):
        put_back(removal, by=curator)

    removal.refresh_from_db()
    assert removal.put_back_at is None
