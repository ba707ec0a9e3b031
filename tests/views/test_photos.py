"""Photos on the screen: added several at once, described, pointed at, withdrawn."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from catalog.models import Photo, PhotoSpot
from catalog.operations.photos import add_photo, point_at
from tests.factories import LocationFactory, MemberFactory, PartFactory
from tests.samples import picture

pytestmark = pytest.mark.django_db


@pytest.fixture
def part(db):
    return PartFactory()


@pytest.fixture
def photo(member, part):
    return add_photo(picture(), by=member, part=part, caption="door side")


def told(answer):
    return [str(message) for message in answer.context["messages"]]


def do(client, name, photo, values=None, **options):
    return client.post(reverse(name, args=[photo.pk]), values or {}, **options)


def test_photo_add_takes_several_and_tells_of_the_one_that_is_none(signed_in, part):
    files = [picture("teal", name="a.jpg"), picture("gray", name="b.jpg")]
    sheet = SimpleUploadedFile("bolt.pdf", b"%PDF-1.7")

    answer = signed_in.post(
        reverse("photo-add", args=["part", part.pk]), {"photos": [*files, sheet], "role": "mark"}
    )

    assert answer.headers["Location"] == part.get_absolute_url()
    assert list(part.photos.values_list("original_name", "role")) == [
        ("a.jpg", "mark"),
        ("b.jpg", "mark"),
    ]
    page = signed_in.get(reverse("photo-add", args=["part", part.pk]))
    assert told(page) == [
        "2 photos added.",
        "bolt.pdf: This is a PDF document, not a photograph. "
        "Photographs can be JPEG, PNG, WebP, HEIC, TIFF or GIF files.",
    ]


def test_photo_add_notices_the_same_photo_elsewhere(signed_in, photo):
    shelf = LocationFactory()
    address = reverse("photo-add", args=["location", shelf.pk])

    signed_in.post(address, {"photos": [picture(name="again.jpg")]})

    assert told(signed_in.get(address)) == [
        "1 photo added.",
        f"again.jpg is also at {photo.part}.",
    ]


def test_photo_add_without_any_says_so(signed_in, part):
    answer = signed_in.post(reverse("photo-add", args=["part", part.pk]), {})

    assert answer.context["form"].errors == {"photos": ["Choose at least one photo."]}


def test_photo_add_refuses_a_file_beyond_all_measure(signed_in, part, monkeypatch):
    monkeypatch.setattr("catalog.forms.photos.MOST_MEGABYTES", 0)

    answer = signed_in.post(
        reverse("photo-add", args=["part", part.pk]), {"photos": [picture(name="huge.jpg")]}
    )

    assert answer.context["form"].errors == {"photos": ["huge.jpg is larger than 0 MB."]}


def test_photo_add_to_what_has_no_photos_is_not_found(signed_in):
    assert signed_in.get(reverse("photo-add", args=["party", 1])).status_code == 404


def test_photo_change_says_what_it_shows(signed_in, photo):
    do(signed_in, "photo-change", photo, {"role": "damage", "caption": "crack", "sequence": 3})

    photo.refresh_from_db()
    assert (photo.role, photo.caption, photo.sequence) == ("damage", "crack", 3)


def test_photo_is_published_by_a_curator_only(signed_in, as_curator, photo):
    values = {"role": "overall", "sequence": 0, "is_published": "on"}
    do(as_curator, "photo-change", photo, values)
    assert Photo.objects.get().is_published

    as_curator.force_login(photo.added_by)
    do(as_curator, "photo-change", photo, {"role": "overall", "sequence": 0})
    assert Photo.objects.get().is_published


def test_photo_main_replaces_the_former_one(signed_in, member, part, photo):
    other = add_photo(picture("gray"), by=member, part=part)

    do(signed_in, "photo-main", other)

    assert Photo.objects.get(is_main=True) == other


def test_photo_point_places_a_spot_by_percent(signed_in, photo):
    do(signed_in, "photo-point", photo, {"words": "crack", "across": "25", "down": "50.5"})

    spot = PhotoSpot.objects.get()
    assert (spot.x, spot.y, spot.words) == (0.25, 0.505, "crack")
    page = signed_in.get(photo.get_absolute_url()).content.decode()
    assert '<svg x="25.000%" y="50.500%"' in page
    assert "<span>crack</span>" in page


def test_photo_point_beside_the_photo_keeps_the_words(signed_in, photo):
    answer = do(signed_in, "photo-point", photo, {"words": "crack", "across": "125", "down": "50"})

    assert 'value="crack"' in answer.content.decode()
    assert not PhotoSpot.objects.exists()


def test_photo_spot_remove_takes_the_spot_off(signed_in, member, photo):
    spot = point_at(photo, 0.5, 0.5, "crack", by=member)

    signed_in.post(reverse("photo-spot-remove", args=[photo.pk, spot.pk]))

    assert not PhotoSpot.objects.exists()


def test_photo_withdraw_can_be_undone_on_the_same_page(signed_in, photo):
    page = do(signed_in, "photo-withdraw", photo, {"reason": "blurred"}, follow=True)
    assert Photo.objects.get().is_withdrawn
    assert reverse("photo-bring-back", args=[photo.pk]) in page.content.decode()

    do(signed_in, "photo-bring-back", photo)
    assert not Photo.objects.get().is_withdrawn


def test_photo_withdraw_needs_a_reason(signed_in, photo):
    answer = do(signed_in, "photo-withdraw", photo, {"reason": ""})

    assert answer.context["reason_form"].errors == {"reason": ["This field is required."]}


def test_photo_of_another_volunteer_is_withdrawn_by_a_curator(client, curator, photo):
    client.force_login(MemberFactory(username="wilma"))
    assert do(client, "photo-withdraw", photo, {"reason": "ugly"}).status_code == 403

    client.force_login(curator)
    do(client, "photo-withdraw", photo, {"reason": "blurred"})
    assert Photo.objects.get().is_withdrawn


def test_photo_page_lists_the_same_photo_elsewhere(signed_in, member, photo):
    shelf = LocationFactory(name="Rack 2")
    twin = add_photo(picture(), by=member, location=shelf)

    page = signed_in.get(photo.get_absolute_url()).content.decode()

    assert f'<a href="{twin.get_absolute_url()}">Rack 2</a>' in page


def test_photo_page_takes_the_same_queries_for_one_and_three(
    signed_in, member, photo, count_queries
):
    def enrich(number):
        point_at(photo, 0.1, 0.1, f"spot {number}", by=member)
        add_photo(picture(), by=member, part=PartFactory())

    enrich(1)
    one = count_queries(signed_in, photo.get_absolute_url())
    enrich(2)
    enrich(3)

    assert count_queries(signed_in, photo.get_absolute_url()) == one


def test_photo_page_is_for_members(as_visitor, photo):
    assert as_visitor.get(photo.get_absolute_url()).status_code == 403


def test_photo_main_that_cannot_be_brought_back_as_such_says_why(as_curator, curator, part, photo):
    as_curator.post(reverse("record-withdraw", args=["photo", photo.pk]), {"reason": "blurred"})
    add_photo(picture("gray"), by=curator, part=part)

    answer = as_curator.post(reverse("record-bring-back", args=["photo", photo.pk]), follow=True)

    assert told(answer) == ["Another photo is the main one by now."]
