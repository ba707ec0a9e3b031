"""Vehicles on the screen."""

import pytest
from django.urls import reverse
from django.utils import timezone

from catalog.models import Drawing, Vehicle
from tests.factories import (
    CitationFactory,
    DeviationFactory,
    FittingFactory,
    PhotoFactory,
    PositionFactory,
    ProvenanceEventFactory,
    RemovalFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


def test_vehicle_add_records_it_by_label_and_class_alone(signed_in):
    typed = {"label": "Wagon 14", "vehicle_class": VehicleClassFactory().pk, "status": "stored"}

    answer = signed_in.post(reverse("vehicle-add"), typed)

    vehicle = Vehicle.objects.get()
    assert answer.headers["Location"] == vehicle.get_absolute_url()


@pytest.mark.parametrize(
    ("withdrawn", "words"),
    [
        (None, "There is already a vehicle known as Wagon 14."),
        (timezone.now(), "Wagon 14 was withdrawn. Bring it back from its history."),
    ],
)
def test_vehicle_add_says_by_what_a_name_is_taken(signed_in, withdrawn, words):
    former = VehicleFactory(label="Wagon 14", withdrawn_at=withdrawn, withdrawn_reason="twice")
    typed = {"label": "Wagon 14", "vehicle_class": former.vehicle_class_id, "status": "stored"}

    page = signed_in.post(reverse("vehicle-add"), typed)

    assert page.context["form"].errors == {"label": [words]}


def test_vehicle_add_keeps_what_was_typed_beside_a_wrong_date(signed_in):
    typed = {"label": "Wagon 14", "vehicle_class": VehicleClassFactory().pk, "status": "stored"}

    page = signed_in.post(reverse("vehicle-add"), typed | {"date_text": "31 February 1902"})

    assert not Vehicle.objects.exists()
    assert 'value="31 February 1902"' in page.content.decode()


def test_volunteer_cannot_publish(signed_in):
    vehicle = VehicleFactory()
    typed = {"label": "Wagon 14", "vehicle_class": vehicle.vehicle_class_id, "status": "stored"}
    address = reverse("vehicle-change", args=[vehicle.slug])

    signed_in.post(address, typed | {"is_published": "on", "seen": ""})

    vehicle.refresh_from_db()
    assert (vehicle.label, vehicle.is_published) == ("Wagon 14", False)


def test_list_is_narrowed_to_a_class(signed_in):
    first, second = VehicleFactory(label="Kestrel"), VehicleFactory(label="Wagon 14")

    address = f"{reverse('vehicle-list')}?vehicle_class={first.vehicle_class.slug}"
    rows = signed_in.get(address).context["rows"]

    assert [row.vehicle for row in rows] == [first]
    assert second.vehicle_class != first.vehicle_class


def test_curator_moves_a_vehicle_in_the_order(as_curator):
    first = VehicleFactory(restoration_order=1)
    second = VehicleFactory(restoration_order=2)

    as_curator.post(reverse("vehicle-order", args=[second.slug]), {"move": "up"})
    as_curator.post(reverse("vehicle-order", args=[first.slug]), {"move": "out"})

    assert list(Vehicle.objects.values_list("label", "restoration_order").order_by("pk")) == [
        (first.label, None),
        (second.label, 1),
    ]


def test_volunteer_may_not_change_the_order(signed_in):
    vehicle = VehicleFactory()

    answer = signed_in.post(reverse("vehicle-order", args=[vehicle.slug]), {"move": "in"})

    assert answer.status_code == 403


def test_record_shows_class_positions_and_provenance_in_one_page(signed_in):
    vehicle = VehicleFactory(label="Kestrel")
    fill(vehicle)

    page = signed_in.get(vehicle.get_absolute_url()).content.decode()

    assert "Built 1899" not in page
    assert "1 of 1 essential positions filled" in page
    assert "built with another lubricator" in page


def fill(vehicle, count=1):
    kind = vehicle.vehicle_class
    for _ in range(count):
        position = PositionFactory(vehicle_class=kind)
        FittingFactory(vehicle=vehicle, position=position)
        PhotoFactory(part=None, vehicle=vehicle)
        DeviationFactory(vehicle=vehicle)
        event = ProvenanceEventFactory(vehicle=vehicle)
        CitationFactory(event=event)
        picture = PhotoFactory(part=None, vehicle_class=kind)
        Drawing.objects.create(vehicle_class=kind, title=f"View {picture.pk}", picture=picture)
        RemovalFactory(vehicle=vehicle, position=position)


@pytest.mark.parametrize(
    "name", ["vehicle-detail", "vehicle-differences", "vehicle-dismantling", "vehicle-change"]
)
def test_sheets_take_the_same_queries_for_one_and_three(as_curator, count_queries, name):
    vehicle = VehicleFactory()
    fill(vehicle)
    one = count_queries(as_curator, reverse(name, args=[vehicle.slug]))

    fill(vehicle, 2)

    assert count_queries(as_curator, reverse(name, args=[vehicle.slug])) == one


def test_list_takes_the_same_queries_for_one_and_three(as_curator, count_queries):
    fill(VehicleFactory())
    one = count_queries(as_curator, reverse("vehicle-list"))

    fill(VehicleFactory())
    fill(VehicleFactory())

    assert count_queries(as_curator, reverse("vehicle-list")) == one


def test_title_block_says_when_the_class_was_built_where_the_vehicle_has_no_date(signed_in):
    wagon = VehicleFactory(date_text="", vehicle_class__date_text="from 1896 to 1908")

    cells = signed_in.get(wagon.get_absolute_url()).context["cells"]

    assert ("Built", "from 1896 to 1908 (as its class)") in cells
