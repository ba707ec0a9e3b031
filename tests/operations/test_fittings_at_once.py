"""Two browsers at the same moment: one wins, and the other is told who."""

from threading import Barrier, Thread

import pytest
from django.core.exceptions import ValidationError
from django.db import connection

from catalog.models import Fitting
from catalog.operations.fittings import fit_part
from catalog.operations.record import keep
from tests.factories import (
    ComponentFactory,
    FittingFactory,
    MemberFactory,
    PartFactory,
    PositionFactory,
    VehicleFactory,
)


def at_once(*acts):
    """Run each act in a thread and on a connection of its own, all starting together."""
    start, told = Barrier(len(acts)), []

    def run(act):
        start.wait(timeout=10)
        try:
            told.append(act().state)
        except ValidationError as refused:
            told.append(refused.messages[0])
        finally:
            connection.close()

    threads = [Thread(target=run, args=[act]) for act in acts]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(timeout=30)
    return sorted(told)


@pytest.mark.django_db(transaction=True)
def test_two_parts_for_one_position_one_wins():
    wagon, box = VehicleFactory(label="Wagon 14"), ComponentFactory(name="journal box")
    place = PositionFactory(vehicle_class=wagon.vehicle_class, component=box, code="L1")
    people = [MemberFactory(first_name="Cora"), MemberFactory(first_name="Walt")]
    parts = [PartFactory(component=box, identification_status="agreed") for _ in people]

    told = at_once(
        *(
            lambda part=part, who=who: fit_part(part, wagon, place, by=who)
            for part, who in zip(parts, people, strict=True)
        )
    )

    winner = Fitting.objects.get()
    assert told[0].startswith(
        f"L1 of Wagon 14 already has {winner.part}, fitted by {winner.changed_by} on "
    )
    assert told[1] == "fitted"


@pytest.mark.django_db(transaction=True)
def test_last_piece_of_a_lot_goes_to_one_vehicle_only():
    box = ComponentFactory(name="journal box")
    lot = PartFactory(component=box, identification_status="agreed", quantity=2)
    wagons = VehicleFactory.create_batch(3)
    places = [PositionFactory(vehicle_class=w.vehicle_class, component=box) for w in wagons]
    who = MemberFactory()

    told = at_once(
        *(
            lambda wagon=wagon, place=place: fit_part(lot, wagon, place, by=who)
            for wagon, place in zip(wagons, places, strict=True)
        )
    )

    assert told == ["All 2 pieces of this lot are in use: 2 fitted.", "fitted", "fitted"]


@pytest.mark.django_db
def test_database_refuses_a_position_filled_twice_in_words(curator):
    taken = FittingFactory()
    again = FittingFactory.build(
        vehicle=taken.vehicle,
        position=taken.position,
        part=PartFactory(),
        changed_by=curator,
    )

    with pytest.raises(ValidationError, match="Another part is already at this position"):
        keep(again, by=curator, why="fitted")


@pytest.mark.django_db
def test_database_refuses_a_lot_beyond_its_quantity_in_words(curator):
    taken = FittingFactory()
    vehicle = VehicleFactory()
    position = PositionFactory(vehicle_class=vehicle.vehicle_class)
    again = FittingFactory.build(
        vehicle=vehicle, position=position, part=taken.part, changed_by=curator
    )

    with pytest.raises(ValidationError, match="No piece of this lot is left"):
        keep(again, by=curator, why="fitted")
