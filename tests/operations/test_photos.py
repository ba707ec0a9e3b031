"""Photos: the original kept, one main photo a record, nothing twice, nothing half."""

import hashlib
from uuid import UUID

import pytest
from django.core.exceptions import ValidationError
from django.core.files.storage import default_storage
from django.core.files.uploadedfile import SimpleUploadedFile

from catalog.models import Photo, PhotoSpot
from catalog.operations.photos import (
    add_photo,
    bring_back_photo,
    change_photo,
    make_main_photo,
    point_at,
    remove_spot,
    withdraw_photo,
)
from tests.factories import PartFactory, VehicleFactory
from tests.samples import PICTURES, fixture_picture, picture

pytestmark = pytest.mark.django_db
CAPTURE = UUID("6f9619ff-8b86-4d01-b42d-00cf4fc964ff")


@pytest.fixture
def part(db):
    return PartFactory()


def test_add_photo_keeps_the_original_byte_for_byte(member, part):
    photo = add_photo(fixture_picture("with_gps.jpg"), by=member, part=part)

    sent = (PICTURES / "with_gps.jpg").read_bytes()
    with default_storage.open(photo.original.name) as kept:
        assert kept.read() == sent
    assert photo.sha256 == hashlib.sha256(sent).hexdigest()
    assert photo.original.name == f"originals/{photo.sha256[:2]}/{photo.sha256}.jpg"
    assert photo.original_name == "with_gps.jpg"
    assert photo.history.get().history_user == member


def test_add_photo_makes_the_first_one_the_main_photo(member, part):
    photos = [add_photo(picture(color), by=member, part=part) for color in ("teal", "gray")]

    assert [(photo.is_main, photo.sequence) for photo in photos] == [(True, 0), (False, 1)]


def test_add_photo_takes_a_file_from_the_disk(member, part):
    with (PICTURES / "orientation_6.jpg").open("rb") as file:
        photo = add_photo(file, by=member, part=part, caption="door side", role="damage")

    assert (photo.original_name, str(photo), photo.role) == (
        "orientation_6.jpg",
        "door side",
        "damage",
    )


def test_add_photo_twice_to_one_record_is_refused(member, part):
    add_photo(picture(), by=member, part=part, caption="front")

    with pytest.raises(ValidationError, match="This photo was added before, as “front”"):
        add_photo(picture(name="other.jpg"), by=member, part=part)


def test_add_photo_that_was_withdrawn_says_to_bring_it_back(member, part):
    withdraw_photo(add_photo(picture(), by=member, part=part), by=member, reason="blurred")

    with pytest.raises(ValidationError, match="was withdrawn \\(blurred\\); bring it back"):
        add_photo(picture(), by=member, part=part)


def test_add_photo_to_another_record_stores_one_file(member, part):
    one = add_photo(picture(), by=member, part=part)
    two = add_photo(picture(), by=member, vehicle=VehicleFactory())

    assert one.original.name == two.original.name


def test_add_photo_sent_again_under_its_capture_mark_is_the_same_photo(member, part):
    one = add_photo(picture(), by=member, part=part, capture_id=CAPTURE)
    two = add_photo(picture(), by=member, part=part, capture_id=CAPTURE)

    assert one == two
    assert Photo.objects.count() == 1


def test_add_photo_under_the_mark_of_another_is_refused(member, part):
    add_photo(picture(), by=member, part=part, capture_id=CAPTURE)

    with pytest.raises(ValidationError, match="came in the place of this one"):
        add_photo(picture("gray"), by=member, part=part, capture_id=CAPTURE)


def test_add_photo_belongs_to_one_record(member, part):
    with pytest.raises(ValidationError, match="exactly one record"):
        add_photo(picture(), by=member, part=part, vehicle=VehicleFactory())


def test_add_photo_that_is_no_image_stores_nothing(member, part, settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path
    sheet = SimpleUploadedFile("bolt.jpg", b"%PDF-1.7 no picture")

    with pytest.raises(ValidationError, match="This is a PDF document, not a photograph"):
        add_photo(sheet, by=member, part=part)

    assert list(tmp_path.rglob("*")) == []
    assert not Photo.objects.exists()


def test_make_main_photo_replaces_the_former_one(member, part):
    first, second = (add_photo(picture(color), by=member, part=part) for color in ("teal", "gray"))

    make_main_photo(second, by=member)

    assert Photo.objects.get(is_main=True) == second
    assert first.history.first().history_change_reason == "no longer the main photo"


def test_withdraw_photo_hands_the_main_place_on(member, part):
    first, second = (add_photo(picture(color), by=member, part=part) for color in ("teal", "gray"))

    withdraw_photo(first, by=member, reason="blurred")
    assert list(part.photos.in_order()) == [second]
    assert Photo.objects.get(is_main=True) == second

    bring_back_photo(first, by=member)
    assert list(part.photos.in_order()) == [second, first]


def test_bring_back_photo_of_a_record_without_any_makes_it_the_main_one(member, part):
    photo = add_photo(picture(), by=member, part=part)

    bring_back_photo(withdraw_photo(photo, by=member, reason="blurred"), by=member)

    assert Photo.objects.get().is_main


def test_make_main_photo_refuses_a_withdrawn_one(member, part):
    photo = withdraw_photo(add_photo(picture(), by=member, part=part), by=member, reason="blurred")

    with pytest.raises(ValidationError, match="bring it back first"):
        make_main_photo(photo, by=member)


def test_change_photo_keeps_its_history(member, part):
    photo = add_photo(picture(), by=member, part=part)

    change_photo(photo, {"caption": "crack in the lug", "role": "damage"}, by=member)

    assert [str(entry) for entry in photo.history.values_list("role", flat=True)] == [
        "damage",
        "overall",
    ]


def test_point_at_keeps_a_spot_with_words(member, part):
    photo = add_photo(picture(), by=member, part=part)

    spot = point_at(photo, 0.25, 0.5, " crack ", by=member)

    assert (spot.x, spot.y, spot.words) == (0.25, 0.5, "crack")
    remove_spot(spot, by=member)
    assert not PhotoSpot.objects.exists()
    assert PhotoSpot.history.first().history_user == member


@pytest.mark.parametrize(("x", "y"), [(-0.1, 0.5), (0.5, 1.01)])
def test_point_at_beside_the_photo_is_refused(member, part, x, y):
    photo = add_photo(picture(), by=member, part=part)

    with pytest.raises(ValidationError, match="outside the photo"):
        point_at(photo, x, y, "crack", by=member)
