"""The files of photos: upright, without a place, and only for those who may see them."""

import io

import pytest
from django.urls import reverse
from PIL import ExifTags, Image

from catalog.models import Photo
from catalog.operations.photos import add_photo
from catalog.operations.record import change
from tests.factories import AccessionFactory, ComponentFactory, PartFactory, PhotoFactory
from tests.reckoning.picture_samples import mean_difference, patterned, with_orientation
from tests.samples import fixture_picture, picture, uploaded

pytestmark = pytest.mark.django_db


def body(answer):
    return b"".join(answer.streaming_content)


def served(client, address, **headers):
    return Image.open(io.BytesIO(body(client.get(address, headers=headers))))


@pytest.fixture
def published(member):
    part = PartFactory(is_published=True)
    return add_photo(picture(), by=member, part=part, is_published=True)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_photo_file_is_upright_however_the_phone_was_held(signed_in, member, orientation):
    file = fixture_picture(f"orientation_{orientation}.jpg")
    photo = add_photo(file, by=member, part=PartFactory())
    upright = Image.open(fixture_picture("orientation_1.jpg")).convert("RGB")

    shown = served(signed_in, photo.url_320).convert("RGB")

    assert (photo.width, photo.height) == upright.size
    assert mean_difference(shown, upright.resize(shown.size)) < 6


def test_photo_file_of_twelve_megapixels_turned_sideways_is_upright(signed_in, member):
    file = io.BytesIO()
    patterned((4000, 3000)).save(file, "JPEG", exif=with_orientation(6))
    photo = add_photo(uploaded(file, "sideways.jpg"), by=member, part=PartFactory())

    shown = served(signed_in, photo.url_2048).convert("RGB")

    assert (photo.width, photo.height) == (3000, 4000)
    assert shown.size == (1536, 2048)
    # What the camera saw at its lower left is the upper left of the upright picture.
    red, _, blue = shown.getpixel((100, 100))
    assert (red < 60, blue > 200) == (True, True)


@pytest.mark.parametrize("file", ["320", "320.webp", "960.jpg", "2048.webp", "2048.jpg"])
def test_photo_file_does_not_say_where_it_was_taken(signed_in, member, file):
    sent = fixture_picture("with_gps.jpg")
    assert Image.open(sent).getexif().get_ifd(ExifTags.IFD.GPSInfo)
    photo = add_photo(sent, by=member, part=PartFactory())
    address = f"/photos/{photo.pk}/{file}" + ("" if "." in file else "/")

    shown = served(signed_in, address)

    assert dict(shown.getexif()) == {}
    assert set(shown.info) & {"exif", "xmp", "comment", "photoshop"} == set()


@pytest.mark.parametrize(
    ("accepted", "media_type", "size"),
    [
        ("image/avif,image/webp,*/*", "image/webp", (64, 48)),
        ("image/*", "image/webp", (64, 48)),
        ("image/jpeg,image/png", "image/jpeg", (64, 48)),
    ],
)
def test_photo_file_comes_as_the_browser_can_show_it(
    signed_in, published, accepted, media_type, size
):
    answer = signed_in.get(published.url_320, headers={"accept": accepted})

    assert answer.headers["Content-Type"] == media_type
    assert "Accept" in answer.headers["Vary"].split(", ")
    assert Image.open(io.BytesIO(body(answer))).size == size


def test_photo_file_is_kept_by_the_browser_and_by_nobody_between(signed_in, published):
    answer = signed_in.get(published.url_960)

    assert answer.headers["Cache-Control"] == "private, max-age=31536000, immutable"
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    again = signed_in.get(published.url_960, headers={"if-none-match": answer.headers["ETag"]})
    assert (again.status_code, again.content) == (304, b"")
    answer.close()


@pytest.mark.parametrize("address", ["/photos/{}/100/", "/photos/{}/320.html", "/photos/999/320/"])
def test_photo_file_there_is_none_of_is_not_found(signed_in, published, address):
    assert signed_in.get(address.format(published.pk)).status_code == 404


def test_photo_file_missing_from_the_store_is_not_found(signed_in):
    assert signed_in.get(PhotoFactory().url_320).status_code == 404


def test_visitor_sees_a_published_photo_of_a_published_part(client, published):
    answer = client.get(published.url_320)

    assert answer.headers["Content-Type"] == "image/webp"
    assert body(answer)[8:12] == b"WEBP"


@pytest.mark.parametrize("hidden", ["photo", "part", "withdrawn photo", "withdrawn part"])
def test_visitor_sees_no_photo_that_is_not_public_throughout(client, curator, published, hidden):
    record = published if "photo" in hidden else published.part
    with_it = {"withdrawn_at": record.history.first().history_date} if " " in hidden else {}
    change(record, with_it or {"is_published": False}, by=curator)

    assert client.get(published.url_320).status_code == 404


def test_visitor_sees_no_photo_of_what_is_never_public(as_visitor, member):
    photo = add_photo(picture(), by=member, accession=AccessionFactory(), is_published=True)

    assert as_visitor.get(photo.url_320).status_code == 404


def test_visitor_sees_a_published_photo_of_a_component(as_visitor, member):
    photo = add_photo(picture(), by=member, component=ComponentFactory(), is_published=True)

    assert served(as_visitor, photo.url_320).size == (64, 48)


def test_original_is_sent_to_members_under_its_own_name(signed_in, published):
    answer = signed_in.get(reverse("photo-original", args=[published.pk]))

    assert answer.headers["Content-Disposition"] == 'attachment; filename="casting.jpg"'
    assert body(answer) == picture().read()


def test_original_is_not_sent_to_visitors(as_visitor, published):
    assert as_visitor.get(reverse("photo-original", args=[published.pk])).status_code == 403
    assert Photo.objects.get() == published
