"""Differences of vehicles on the screen."""

import pytest
from django.urls import reverse

from catalog.models import Deviation
from tests.factories import DeviationFactory, PositionFactory, VehicleFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def vehicle():
    return VehicleFactory(label="Kestrel")


def test_curator_records_that_a_position_is_not_there(as_curator, vehicle):
    position = PositionFactory(vehicle_class=vehicle.vehicle_class)
    typed = {"kind": "dropped", "position": position.pk, "reason": "no sand pipes", "since": "1903"}

    as_curator.post(reverse("vehicle-differences", args=[vehicle.slug]), typed)

    row = Deviation.objects.get()
    assert (row.vehicle, row.position, row.since) == (vehicle, position, "1903")


def test_difference_without_position_is_refused_beside_the_field(as_curator, vehicle):
    typed = {"kind": "dropped", "reason": "no sand pipes"}

    page = as_curator.post(reverse("vehicle-differences", args=[vehicle.slug]), typed)

    assert page.context["form"].errors == {"position": ["Say which position differs."]}
    assert 'value="no sand pipes"' in page.content.decode()


def test_volunteer_reads_but_does_not_record(signed_in, vehicle):
    address = reverse("vehicle-differences", args=[vehicle.slug])

    assert signed_in.get(address).status_code == 200
    assert signed_in.post(address, {"kind": "noted", "reason": "x"}).status_code == 403


def test_difference_is_taken_back(as_curator, vehicle):
    row = DeviationFactory(vehicle=vehicle)

    as_curator.post(reverse("vehicle-difference-remove", args=[vehicle.slug, row.pk]))

    assert not Deviation.objects.exists()


def test_side_by_side_names_what_differs_and_since_when(signed_in, vehicle):
    other = VehicleFactory(label="Dunlin", vehicle_class=vehicle.vehicle_class)
    position = PositionFactory(vehicle_class=vehicle.vehicle_class, code="S1")
    DeviationFactory(
        vehicle=other, position=position, kind="dropped", reason="no sand pipes", since="as built"
    )

    address = reverse("vehicle-compare", args=[vehicle.slug, other.slug])
    page = signed_in.get(address).content.decode()

    assert "1 of 1 positions differ" in page
    assert "no sand pipes; since when: as built" in page


def test_side_by_side_takes_the_same_queries_for_one_and_three(signed_in, count_queries, vehicle):
    other = VehicleFactory(vehicle_class=vehicle.vehicle_class)
    address = reverse("vehicle-compare", args=[vehicle.slug, other.slug])
    PositionFactory(vehicle_class=vehicle.vehicle_class)
    one = count_queries(signed_in, address)

    PositionFactory.create_batch(2, vehicle_class=vehicle.vehicle_class)

    assert count_queries(signed_in, address) == one
