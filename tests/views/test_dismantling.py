"""What came off a vehicle, and the order in which it goes back."""

from io import BytesIO

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from catalog.models import Fitting, Hazard, Photo, Removal
from catalog.operations.fittings import fit_part
from catalog.operations.removals import remove_part
from tests.factories import (
    LONG_AGO,
    PartFactory,
    PhotoFactory,
    RemovalFactory,
    VehicleFactory,
)
from tests.samples import picture, uploaded
from tests.tramway import lay_out_class

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


def test_what_is_off_has_a_sheet_to_put_it_back_by(signed_in):
    vehicle = RemovalFactory().vehicle
    address = reverse("putting-back-print", args=[vehicle.slug])

    page = signed_in.get(reverse("vehicle-dismantling", args=[vehicle.slug])).content.decode()

    assert f'href="{address}"' in page
    assert signed_in.get(address).content.startswith(b"%PDF")


@pytest.fixture
def boxes(db, curator):
    """Fit two journal boxes to a wagon, and return them in the order of their positions."""
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14")
    places = [shop.position("journal box", code) for code in ("L1", "R1")]
    return [fit_part(shop.part("journal box"), wagon, place, by=curator) for place in places]


def page_of(boxes):
    return reverse("vehicle-dismantling", args=[boxes[0].vehicle.slug])


def test_page_offers_each_piece_that_is_on_to_be_taken_off(as_curator, boxes):
    answer = as_curator.get(page_of(boxes))

    shown = answer.content.decode()
    offered = [f"{reverse('fitting-remove', args=[one.pk])}?back=dismantling" for one in boxes]
    assert answer.context["dismantling"].still_on == tuple(boxes)
    assert [address in shown for address in offered] == [True, True]


def test_volunteer_sees_what_is_on_without_the_buttons(signed_in, boxes):
    shown = signed_in.get(page_of(boxes)).content.decode()

    assert "2 are on" in shown
    assert "/remove/" not in shown


def test_piece_is_taken_off_with_photos_and_a_tag(as_curator, boxes):
    address = reverse("fitting-remove", args=[boxes[0].pk])
    sent = {"orientation": "lid outward", "tag": "k7q2m9v", "photos": [picture(), picture("brown")]}

    answer = as_curator.post(f"{address}?back=dismantling", sent)

    removal = Removal.objects.get()
    assert answer.headers["Location"] == page_of(boxes)
    assert (removal.orientation, removal.part.tag) == ("lid outward", "K7Q-2M9V")
    assert list(removal.photos.values_list("role", flat=True)) == ["in_place", "in_place"]


def test_bad_tag_and_bad_photo_are_told_and_the_piece_is_off_all_the_same(as_curator, boxes):
    address = reverse("fitting-remove", args=[boxes[0].pk])
    text = uploaded(BytesIO(b"not a picture"), "notes.txt")

    answer = as_curator.post(address, {"tag": "K7Q-2M9X", "photos": [text]}, follow=True)

    shown = answer.content.decode()
    assert Removal.objects.get().part.tag is None
    assert "notes.txt" in shown
    assert shown.count('class="message error"') == 2
    assert not Photo.objects.exists()


def test_piece_goes_back_by_the_button_and_the_page_comes_again(as_curator, curator, boxes):
    first, last = (remove_part(fitting, by=curator) for fitting in boxes)
    last.part.hazards.add(Hazard.objects.get(slug="asbestos"))
    shown = as_curator.get(page_of(boxes)).content.decode()

    sent = {"back": "dismantling"}
    answer = as_curator.post(reverse("removal-put-back", args=[last.pk]), sent, follow=True)

    assert 'class="caution"' in shown
    assert answer.redirect_chain == [(page_of(boxes), 302)]
    assert answer.context["dismantling"].to_put_back == (first,)
    assert [one.pk for one in answer.context["dismantling"].put_back] == [last.pk]
    assert Fitting.objects.active().get().part == last.part


def test_page_asks_as_much_for_three_pieces_as_for_one(as_curator):
    few, many = VehicleFactory(), VehicleFactory()
    for vehicle, count in ((few, 1), (many, 3)):
        for number in range(1, count + 1):
            RemovalFactory(vehicle=vehicle, sequence=number, part=PartFactory())

    counts = []
    for vehicle in (few, many):
        with CaptureQueriesContext(connection) as asked:
            as_curator.get(reverse("vehicle-dismantling", args=[vehicle.slug]))
        counts.append(len(asked))

    assert counts[0] == counts[1]
