"""Slugs for addresses."""

import pytest

from catalog.models import Component, VehicleClass
from catalog.operations.slugs import unique_slug
from tests.factories import ComponentFactory

pytestmark = pytest.mark.django_db


def test_unique_slug_is_readable():
    assert unique_slug(Component, "Bearing brass, upper") == "bearing-brass-upper"


def test_unique_slug_counts_on_when_it_is_taken():
    ComponentFactory(slug="drawhead")
    ComponentFactory(slug="drawhead-2")

    assert unique_slug(Component, "Drawhead") == "drawhead-3"


@pytest.mark.parametrize(
    ("text", "slug"), [("Add", "add-2"), ("…", "vehicleclass"), ("x" * 200, "x" * 65)]
)
def test_unique_slug_stays_clear_of_other_addresses(text, slug):
    assert unique_slug(VehicleClass, text) == slug
