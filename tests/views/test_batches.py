"""Photos from a desk: one a request, each once, the refused ones with their reason."""

from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from catalog.models import Part, Photo
from catalog.operations.photos import add_photo
from catalog.queries.bench import bench_queue
from tests.factories import AccessionFactory, LocationFactory, PartFactory
from tests.samples import picture

pytestmark = pytest.mark.django_db
COLORS = ("teal", "navy", "olive")
NO_PHOTO = b"no photograph"


def pictures():
    return [picture(color, name=f"{color}.jpg") for color in COLORS]


def no_picture():
    return SimpleUploadedFile("list.txt", NO_PHOTO, "text/plain")


def send(client, photo, **values):
    told = {"photos": photo, "capture_id": uuid4().hex, **values}
    return client.post(reverse("photo-batch-add"), told)


def test_each_photo_becomes_a_part_in_the_queue_of_the_donation(signed_in):
    accession, shelf = AccessionFactory(), LocationFactory()

    answers = [
        send(signed_in, photo, accession=accession.pk, location=shelf.pk) for photo in pictures()
    ]

    parts = list(bench_queue(accession=accession.pk))
    assert [answer.json() for answer in answers] == [
        {"part": part.pk, "words": part.number, "url": part.get_absolute_url()} for part in parts
    ]
    assert [part.photos.get().original_name for part in parts] == [f"{c}.jpg" for c in COLORS]
    assert {part.location for part in parts} == {shelf}


def test_photos_of_one_piece_follow_its_first(signed_in):
    first, *others = pictures()
    part = send(signed_in, first).json()["part"]

    for photo in others:
        assert send(signed_in, photo, part=part).json()["part"] == part

    assert Part.objects.get().photos.count() == 3


def test_photo_sent_again_after_a_lost_answer_is_recorded_once(signed_in):
    mark = uuid4().hex

    answers = [send(signed_in, picture(), capture_id=mark).json() for _ in range(2)]

    assert answers[0] == answers[1]
    assert (Part.objects.count(), Photo.objects.count()) == (1, 1)


def test_refused_photo_answers_with_its_reason_and_records_nothing(signed_in):
    answer = send(signed_in, no_picture())

    assert answer.status_code == 422
    assert "This file is not a picture." in answer.json()["problem"]
    assert not Part.objects.exists()


def test_photo_without_its_mark_is_refused(signed_in):
    assert send(signed_in, picture(), capture_id="").status_code == 422


def test_photos_added_to_a_record_one_by_one_tell_where_else_they_are(signed_in, member):
    part, other = PartFactory(), PartFactory(number="2026.4.3")
    add_photo(picture(), by=member, part=other)
    told = {"photos": picture(), "role": "damage", "capture_id": uuid4().hex}

    answer = signed_in.post(reverse("photo-drop", args=["part", part.pk]), told)

    photo = part.photos.get()
    assert answer.json() == {
        "words": "added, also at 2026.4.3",
        "url": photo.get_absolute_url(),
    }
    assert photo.role == "damage"


def test_same_photo_twice_on_a_record_is_refused_with_the_reason(signed_in, member):
    part = PartFactory()
    add_photo(picture(), by=member, part=part)
    told = {"photos": picture(), "capture_id": uuid4().hex}

    answer = signed_in.post(reverse("photo-drop", args=["part", part.pk]), told)

    assert answer.status_code == 422
    assert answer.json()["problem"].startswith("This photo was added before")


def test_photos_are_not_added_to_what_carries_none(signed_in):
    assert signed_in.post(reverse("photo-drop", args=["party", 1])).status_code == 404


@pytest.mark.parametrize(("together", "parts"), [("0", 3), ("1", 1)])
def test_without_script_the_form_takes_them_all(signed_in, together, parts):
    accession = AccessionFactory()
    told = {"photos": pictures(), "together": together, "accession": accession.pk}

    answer = signed_in.post(reverse("photo-batch"), told)

    assert answer.headers["Location"] == f"{reverse('photo-batch')}?accession={accession.pk}"
    assert accession.parts.count() == parts
    assert Photo.objects.count() == 3


def test_without_script_a_refused_file_does_not_lose_the_others(signed_in):
    told = {"photos": [no_picture(), *pictures()], "together": "1"}

    page = signed_in.post(reverse("photo-batch"), told, follow=True).content.decode()

    assert Part.objects.get().photos.count() == 3
    assert "1 part taken in." in page
    assert "list.txt: " in page


def test_more_than_a_hundred_photos_at_once_are_refused(signed_in, settings):
    settings.DATA_UPLOAD_MAX_NUMBER_FILES = 200
    photos = [SimpleUploadedFile(f"{n}.jpg", NO_PHOTO) for n in range(101)]

    page = signed_in.post(reverse("photo-batch"), {"photos": photos, "together": "0"})

    assert page.context["form"].errors == {"photos": ["Choose at most 100 photos at once."]}


def test_visitor_adds_nothing(as_visitor):
    assert as_visitor.get(reverse("photo-batch")).status_code == 403
    assert send(as_visitor, picture()).status_code == 403
    assert not Part.objects.exists()
