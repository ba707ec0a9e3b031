"""What visitors see: said beside each record, changed by curators, looked at by members."""

import pytest
from django.urls import reverse

from catalog.operations.drawings import add_drawing_from_file
from tests.factories import (
    PartFactory,
    PartyFactory,
    PatentFactory,
    PhotoFactory,
    PositionFactory,
    SourceFactory,
    VehicleClassFactory,
    VehicleFactory,
)
from tests.samples import picture

pytestmark = pytest.mark.django_db
FACTORIES = {
    "vehicle": VehicleFactory,
    "part": PartFactory,
    "patent": PatentFactory,
    "vehicle-class": VehicleClassFactory,
    "source": SourceFactory,
    "photo": PhotoFactory,
}


@pytest.mark.parametrize("kind", FACTORIES)
def test_curator_publishes_from_the_page_of_the_record_and_takes_it_back(as_curator, kind):
    record = FACTORIES[kind]()
    address = reverse("record-publish", args=[kind, record.pk])

    page = as_curator.post(address, {"shown": "1"}, follow=True)
    record.refresh_from_db()
    was_published = record.is_published
    as_curator.post(address, {"shown": "0"})
    record.refresh_from_db()

    assert "Take it back from visitors" in page.content.decode()
    assert (was_published, record.is_published) == (True, False)


def test_volunteer_publishes_nothing(signed_in):
    vehicle = VehicleFactory()

    answer = signed_in.post(reverse("record-publish", args=["vehicle", vehicle.pk]), {"shown": "1"})

    vehicle.refresh_from_db()
    assert (answer.status_code, vehicle.is_published) == (403, False)


def test_location_is_never_published(as_curator):
    party = PartyFactory()

    answer = as_curator.post(reverse("record-publish", args=["party", party.pk]), {"shown": "1"})

    assert answer.status_code == 404


@pytest.mark.parametrize("kind", ["vehicle", "part", "patent", "vehicle-class"])
def test_member_looks_at_an_unpublished_record_as_visitors_would(signed_in, client, kind):
    record = FACTORIES[kind]()
    address = f"{record.get_absolute_url()}?as=visitor"

    assert "As visitors see it" in signed_in.get(address).content.decode()
    client.logout()
    assert client.get(address).status_code in (302, 404)


def test_card_counts_the_published_photos(signed_in):
    vehicle = VehicleFactory()
    PhotoFactory(part=None, vehicle=vehicle, is_published=True)
    PhotoFactory(part=None, vehicle=vehicle)

    page = signed_in.get(vehicle.get_absolute_url())

    assert "1 of 2 photos are published." in page.content.decode()


def test_published_photo_of_a_hidden_record_is_told_to_be_hidden(signed_in):
    photo = PhotoFactory(part=PartFactory(number="2026.1.9"), is_published=True)

    page = signed_in.get(photo.get_absolute_url())

    assert (
        "2026.1.9 itself is not published, so nobody sees the photo yet." in page.content.decode()
    )


def test_visitor_reads_the_page_of_a_published_class(client, curator):
    builder = PartyFactory(name="Secret Works")
    kind = VehicleClassFactory(designation="Class E", is_published=True, builder=builder)
    VehicleFactory(label="Wagon 14", vehicle_class=kind, is_published=True)
    VehicleFactory(label="Wagon 99", vehicle_class=kind)
    PositionFactory(vehicle_class=kind, code="L1")
    add_drawing_from_file(kind, picture(), title="Works drawing 7", by=curator)

    page = client.get(kind.get_absolute_url()).content.decode()

    shown = ["Class E", "Wagon 14", "L1", "Wagon 99", "Secret Works", "Works drawing 7"]
    assert [word in page for word in shown] == [True, True, True, False, False, False]


def test_visitor_finds_no_unpublished_class(client):
    assert client.get(VehicleClassFactory().get_absolute_url()).status_code == 404


def test_visitor_goes_from_a_vehicle_to_its_class_and_its_sheet(client):
    kind = VehicleClassFactory(is_published=True)
    vehicle = VehicleFactory(vehicle_class=kind, is_published=True)

    page = client.get(vehicle.get_absolute_url()).content.decode()

    assert f'href="{kind.get_absolute_url()}"' in page
    assert f'href="{reverse("print-sheet", args=["vehicle", vehicle.pk])}?public=1"' in page


def test_account_of_a_speaker_who_has_not_agreed_is_not_shown_to_visitors(as_curator):
    source = SourceFactory(kind="oral", has_consent=False)
    address = reverse("record-publish", args=["source", source.pk])

    answer = as_curator.post(address, {"shown": "1"}, follow=True)

    source.refresh_from_db()
    assert not source.is_published
    assert "only when the speaker has agreed" in answer.content.decode()
