"""Parts in hand, and in which words their places are told."""

import pytest

from catalog.queries.needs import needs_of
from tests.factories import LocationFactory, PartFactory
from tests.tramway import lay_out_class

pytestmark = pytest.mark.django_db


def test_part_inside_another_is_found_where_that_one_is():
    tramway = lay_out_class()
    crate = PartFactory(number="2026.1.30", location=LocationFactory(name="Rack B"))
    tramway.part("hinge", inside=crate)
    tramway.part("drawhead", inside=PartFactory(number=None))

    needs = needs_of(tramway.vehicle("Wagon 14")).needs
    best = {need.position.code: need.best for need in needs}

    assert best["HL"].part.location == "Rack B, inside 2026.1.30"
    assert best["A"].part.location == "a place not recorded, inside another part"
