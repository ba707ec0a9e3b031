"""What three wagons of one shop need, told in a sentence each."""

import pytest

from catalog.queries.needs import needs_of, needs_of_shop
from tests.tramway import lay_out_shop

pytestmark = pytest.mark.django_db


def test_shop_of_three_wagons():
    shop = lay_out_shop()

    told = {label: needs_of(vehicle).sentence for label, vehicle in shop.vehicles.items()}

    assert told == {
        "Wagon 14": "2 of 6 essential positions; what is in hand could fill the rest, were it alone in the shop",
        "Wagon 22": "2 of 6 essential positions; what is in hand could fill the rest, were it alone in the shop",
        "Wagon 31": "0 of 6 essential positions; 1 need blocks it, were it alone in the shop",
    }


def test_needs_of_a_shop_with_one_wagon_are_no_other_than_those_of_the_wagon():
    wagon = lay_out_shop().vehicles["Wagon 22"]

    of_shop = needs_of_shop([wagon])[wagon.pk]

    assert of_shop.sentence == needs_of(wagon).sentence
