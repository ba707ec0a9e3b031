"""Photos that a phone sends one by one: kept byte for byte, once, or refused in words."""

import datetime as dt
from hashlib import sha256
from uuid import UUID

import pytest
from django.utils import timezone

from catalog.models import Part, Photo
from tests.samples import picture

pytestmark = pytest.mark.django_db
PIECE = UUID("6f9619ff-8b86-4d01-b42d-00cf4fc964ff")
PHOTO = UUID("0e984725-c51c-4bf4-9960-e1c80e27aba0")
ADDRESS = f"/sync/parts/{PIECE}/"


def put_piece(client, member, **told):
    return client.put(ADDRESS, {"user": member.pk, **told}, content_type="application/json")


def put_photo(client, data, digest=None, photo=PHOTO, piece=PIECE, **told):
    address = f"/sync/parts/{piece}/photos/{photo}/"
    headers = {"X-Content-SHA256": digest or sha256(data).hexdigest()}
    return client.put(
        address, data, content_type="application/octet-stream", headers=headers, query_params=told
    )


def milliseconds(moment):
    return moment.timestamp() * 1000


@pytest.fixture
def jpeg():
    return picture().read()


@pytest.fixture
def sent_piece(signed_in, member):
    """Send a piece whose photos follow."""
    put_piece(signed_in, member, photo_count=2)
    return Part.objects.get()


def test_photo_is_kept_byte_for_byte(signed_in, sent_piece, jpeg):
    answer = put_photo(signed_in, jpeg, name="bolt.jpg", role="mark")

    photo = Photo.objects.get()
    assert (answer.status_code, answer.json()) == (
        201,
        {"id": str(PHOTO), "sha256": sha256(jpeg).hexdigest()},
    )
    with photo.original.open() as kept:
        assert kept.read() == jpeg
    assert (photo.part, photo.original_name, photo.role) == (sent_piece, "bolt.jpg", "mark")


def test_photo_says_when_it_was_taken_though_it_was_made_smaller(signed_in, sent_piece, jpeg):
    taken = timezone.now() - dt.timedelta(hours=3)
    sent = milliseconds(timezone.now())

    put_photo(signed_in, jpeg, written_at=milliseconds(taken), sent_at=sent)

    assert abs(Photo.objects.get().taken_at - taken) < dt.timedelta(seconds=10)


def test_photo_sent_again_is_recorded_once_and_told_with_its_piece(
    signed_in, member, sent_piece, jpeg
):
    statuses = [put_photo(signed_in, jpeg).status_code for _ in range(3)]
    again = put_piece(signed_in, member, photo_count=2)

    assert statuses == [201, 200, 200]
    assert again.json()["photos"] == {str(PHOTO): sha256(jpeg).hexdigest()}
    assert Photo.objects.count() == 1


def test_photo_damaged_on_the_way_is_to_be_sent_again(signed_in, sent_piece, jpeg):
    flipped = bytes([jpeg[0] ^ 1]) + jpeg[1:]

    answer = put_photo(signed_in, flipped, digest=sha256(jpeg).hexdigest())

    assert (answer.status_code, answer.json()) == (
        422,
        {"problems": {"": ["The photo was damaged on the way."]}, "again": True},
    )
    assert not Photo.objects.exists()


def test_photo_that_is_none_is_refused_in_words(signed_in, sent_piece):
    answer = put_photo(signed_in, b"%PDF-1.7")

    assert (answer.status_code, answer.json()["again"]) == (422, False)
    assert answer.json()["problems"][""][0].startswith("This is a PDF document")


def test_photo_under_the_name_of_another_is_refused(signed_in, sent_piece, jpeg):
    put_photo(signed_in, jpeg)

    answer = put_photo(signed_in, picture("gray").read())

    assert (answer.status_code, Photo.objects.count()) == (422, 1)


def test_photo_before_its_piece_is_to_be_sent_again(signed_in, jpeg):
    answer = put_photo(signed_in, jpeg)

    assert (answer.status_code, answer.json()["again"]) == (409, True)


def test_photo_that_is_too_large_is_refused_before_it_is_read(signed_in, sent_piece):
    answer = signed_in.generic(
        "PUT", f"{ADDRESS}photos/{PHOTO}/", b"x", headers={"Content-Length": "60000001"}
    )

    assert (answer.status_code, answer.json()["problems"]) == (
        413,
        {"": ["The photo is larger than 60 MB."]},
    )


def test_photo_without_a_session_is_refused_in_json(client, db, jpeg):
    assert put_photo(client, jpeg).status_code == 401
