"""Differences of vehicles on the screen."""

import pytest
from django.urls import reverse

from catalog.models import Deviation, Position, Specification
from tests.factories import (
    CharacteristicFactory,
    ComponentFactory,
    DeviationFactory,
    PositionFactory,
    SpecificationFactory,
    VehicleFactory,
)

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


def differ(client, vehicle, position):
    address = reverse("vehicle-differences", args=[vehicle.slug])
    typed = {"kind": "respecified", "position": position.pk, "reason": "bored out"}
    return client.post(address, typed, follow=True)


@pytest.fixture
def bore(vehicle):
    position = PositionFactory(vehicle_class=vehicle.vehicle_class, code="L1")
    return CharacteristicFactory(name="bore", component=position.component)


def test_other_limits_lead_to_the_form_for_them(as_curator, vehicle, bore):
    position = Position.objects.get()

    page = differ(as_curator, vehicle, position)

    assert f"Now write down the limits that hold at {position} of Kestrel" in page.content.decode()
    form = page.context["form"]
    assert (form["vehicle"].value(), form["position"].value()) == (
        str(vehicle.pk),
        str(position.pk),
    )


def test_limits_of_one_vehicle_stand_beside_its_difference(as_curator, vehicle, bore):
    position = Position.objects.get()
    address, _ = differ(as_curator, vehicle, position).redirect_chain[-1]
    typed = {"characteristic": bore.pk, "vehicle": vehicle.pk, "position": position.pk}

    back = as_curator.post(address, {**typed, "lower_mm": "65 mm"}, follow=True)

    assert back.redirect_chain[-1][0] == reverse("vehicle-differences", args=[vehicle.slug])
    limits = Specification.objects.get()
    assert (limits.vehicle, limits.position) == (vehicle, position)
    change = reverse("specification-change", args=[limits.pk])
    assert f'<a href="{change}">bore at least 65 mm</a>' in back.content.decode()
    assert "Add the limits" not in back.content.decode()


def test_difference_without_limits_of_its_own_asks_for_them(as_curator, vehicle, bore):
    position = Position.objects.get()
    SpecificationFactory(vehicle_class=vehicle.vehicle_class, characteristic=bore)
    DeviationFactory(vehicle=vehicle, kind="respecified", position=position)
    address = reverse("vehicle-differences", args=[vehicle.slug])

    page = as_curator.get(address).content.decode()

    asked = reverse("specification-add", args=[vehicle.vehicle_class_id])
    assert f"{asked}?vehicle={vehicle.pk}&amp;position={position.pk}" in page
    assert 'bore 63–64 mm <span class="soft">as its class</span>' in page


def test_volunteer_is_not_led_to_the_form_for_limits(signed_in, vehicle, bore):
    DeviationFactory(vehicle=vehicle, kind="respecified", position=Position.objects.get())

    page = signed_in.get(reverse("vehicle-differences", args=[vehicle.slug])).content.decode()

    assert "not written down yet" in page
    assert "Add the limits" not in page
    assert reverse("vehicle-position-add", args=[vehicle.pk]) not in page


def test_other_difference_is_recorded_with_a_word(as_curator, vehicle):
    address = reverse("vehicle-differences", args=[vehicle.slug])

    page = as_curator.post(address, {"kind": "noted", "reason": "longer hangers"}, follow=True)

    assert "Recorded: longer hangers" in page.content.decode()


def test_position_of_one_vehicle_is_added_from_its_differences(as_curator, vehicle):
    address = reverse("vehicle-differences", args=[vehicle.slug])
    add = reverse("vehicle-position-add", args=[vehicle.pk])
    pipe = ComponentFactory(name="sand pipe")
    typed = {"code": "S3", "component": pipe.pk, "reason": "seen on the engine", "since": "1911"}

    assert add in as_curator.get(address).content.decode()
    page = as_curator.post(add, typed, follow=True)

    assert page.redirect_chain[-1][0] == address
    row = Deviation.objects.get()
    assert (row.kind, str(row.position), row.since) == ("added", "S3 sand pipe", "1911")
    change = reverse("position-change", args=[row.position_id])
    assert change in page.content.decode()
    typed = {"code": "S4", "component": pipe.pk}
    assert as_curator.post(change, typed).headers["Location"] == address


def test_differences_take_the_same_queries_for_one_and_three(
    as_curator, count_queries, vehicle, bore
):
    address = reverse("vehicle-differences", args=[vehicle.slug])
    positions = PositionFactory.create_batch(
        3, vehicle_class=vehicle.vehicle_class, component=bore.component
    )
    DeviationFactory(vehicle=vehicle, kind="respecified", position=positions[0])
    SpecificationFactory(vehicle_class=vehicle.vehicle_class, characteristic=bore)
    PositionFactory(vehicle_class=None, vehicle=vehicle)
    one = count_queries(as_curator, address)

    for position in positions[1:]:
        DeviationFactory(vehicle=vehicle, kind="respecified", position=position)
        PositionFactory(vehicle_class=None, vehicle=vehicle)

    assert count_queries(as_curator, address) == one


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
