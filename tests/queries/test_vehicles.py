"""How complete vehicles are, and their drawings with states."""

import pytest

from catalog.models import Drawing, PositionSpot
from catalog.queries.positions import positions_of
from catalog.queries.vehicles import (
    Completeness,
    assemblies,
    completeness_of,
    plates_of,
    vehicle_rows,
)
from tests.factories import (
    FittingFactory,
    PhotoFactory,
    PositionFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def wagon():
    vehicle = VehicleFactory()
    kind = vehicle.vehicle_class
    box = PositionFactory(vehicle_class=kind, code="L1", assembly="running gear")
    PositionFactory(vehicle_class=kind, code="R1", assembly="running gear")
    PositionFactory(vehicle_class=kind, code="B1", is_essential=False)
    FittingFactory(vehicle=vehicle, position=box)
    return vehicle


def test_only_essential_positions_with_fitted_parts_count(wagon):
    other = VehicleFactory(vehicle_class=wagon.vehicle_class)
    FittingFactory(vehicle=wagon, position=positions_of(wagon)[2], state="trial")

    assert completeness_of([wagon, other]) == {
        wagon.pk: Completeness(1, 2),
        other.pk: Completeness(0, 2),
    }


def test_positions_are_grouped_by_assembly(wagon):
    positions = positions_of(wagon)

    states = {position.pk: "fitted" for position in positions if position.code == "L1"}
    found = assemblies(positions, states)

    told = {group.name: [(row.position.code, row.state) for row in group.rows] for group in found}
    assert told == {
        "running gear": [("L1", "fitted"), ("R1", "nothing")],
        "other positions": [("B1", "nothing")],
    }


def test_drawing_of_the_base_class_shows_positions_of_the_variant():
    base = VehicleClassFactory()
    variant = VehicleClassFactory(based_on=base)
    vehicle = VehicleFactory(vehicle_class=variant)
    position = PositionFactory(vehicle_class=base, code="L1")
    picture = PhotoFactory(part=None, vehicle_class=base)
    drawing = Drawing.objects.create(vehicle_class=base, title="Side", picture=picture)
    PositionSpot.objects.create(position=position, drawing=drawing, x=0.25, y=0.5)
    own = PositionFactory(vehicle_class=variant, code="L1", component=position.component)

    (plate,) = plates_of(vehicle, positions_of(vehicle), {own.pk: "fitted"})

    (spot,) = plate.spots
    assert (plate.title, spot.code, spot.state, spot.x) == ("Side", "L1", "fitted", 0.25)


def test_unpublished_drawing_is_not_for_visitors():
    vehicle = VehicleFactory()
    picture = PhotoFactory(part=None, vehicle_class=vehicle.vehicle_class)
    Drawing.objects.create(vehicle_class=vehicle.vehicle_class, title="Side", picture=picture)

    assert plates_of(vehicle, (), {}, published_only=True) == []


def test_list_shows_the_main_photo_and_visitors_the_first_published():
    vehicle = VehicleFactory()
    main = PhotoFactory(part=None, vehicle=vehicle, is_main=True)
    published = PhotoFactory(part=None, vehicle=vehicle, is_published=True)

    assert [row.photo for row in vehicle_rows([vehicle])] == [main]
    assert [row.photo for row in vehicle_rows([vehicle], published_photos=True)] == [published]
