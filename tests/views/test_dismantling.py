"""What came off a vehicle, and the order in which it goes back."""

import pytest
from django.urls import reverse

from tests.factories import LONG_AGO, PhotoFactory, RemovalFactory, VehicleFactory

pytestmark = pytest.mark.django_db


def test_what_came_off_last_goes_back_first(signed_in):
    vehicle = VehicleFactory()
    first = RemovalFactory(vehicle=vehicle, sequence=1, orientation="flange down")
    second = RemovalFactory(vehicle=vehicle, sequence=2)
    back = RemovalFactory(vehicle=vehicle, sequence=3, put_back_at=LONG_AGO)
    PhotoFactory(part=None, removal=first)

    answer = signed_in.get(reverse("vehicle-dismantling", args=[vehicle.slug]))

    found = answer.context["dismantling"]
    assert found.taken_off == (first, second, back)
    assert found.to_put_back == (second, first)
    assert "flange down" in answer.content.decode()


def test_vehicle_of_which_nothing_came_off_says_what_to_do(signed_in):
    vehicle = VehicleFactory()

    page = signed_in.get(reverse("vehicle-dismantling", args=[vehicle.slug])).content.decode()

    assert "Nothing has been taken off yet" in page
