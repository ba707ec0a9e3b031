"""The public pages of wants: nothing private, no login, and answers that people write."""

import datetime as dt
import time
from io import BytesIO
from xml.etree import ElementTree as ET

import pytest
from django.core import signing
from django.urls import reverse
from pypdf import PdfReader

from catalog.forms.wants import STAMP
from catalog.models import Answer, Drawing, PositionSpot
from tests.factories import (
    LONG_AGO,
    AnswerFactory,
    ComponentAliasFactory,
    PartFactory,
    PhotoFactory,
    SourceFactory,
    WantFactory,
)
from tests.printing.reading import text_of
from tests.tramway import lay_out_class

pytestmark = pytest.mark.django_db

ATOM = "{http://www.w3.org/2005/Atom}"


class OldSigner(signing.TimestampSigner):
    """Sign as if it were some time ago."""

    def __init__(self, seconds_ago):
        super().__init__(salt=STAMP)
        self.seconds_ago = seconds_ago

    def timestamp(self):
        return signing.b62_encode(int(time.time()) - self.seconds_ago)


@pytest.fixture
def shop(db):
    """Lay out a class whose wagon nobody outside may hear of."""
    shop = lay_out_class()
    wagon = shop.vehicle("sentinel-vehicle")
    wagon.notes = "sentinel-note"
    wagon.save()
    return shop


@pytest.fixture
def want(shop):
    place = shop.position("drawhead", "A")
    picture = PhotoFactory(part=None, vehicle_class=shop.vehicle_class, caption="sentinel-drawing")
    drawing = Drawing.objects.create(
        vehicle_class=shop.vehicle_class, title="sentinel-drawing", picture=picture
    )
    PositionSpot.objects.create(position=place, drawing=drawing, x=0.5, y=0.5)
    want = WantFactory(
        title="Drawhead",
        slug="drawhead",
        component=shop.components["drawhead"],
        vehicle=shop.vehicles["sentinel-vehicle"],
        position=place,
        words="Cast iron, pocket for a link.",
        dimensions="shank: 64 ± 0.5 mm\n\nlength: 300 mm",
        marks="T.I. 207",
        picture=PhotoFactory(part=PartFactory(number="sentinel-part"), caption="sentinel-caption"),
        drawing=drawing,
        is_published=True,
        published_at=LONG_AGO,
    )
    tell_privately(want)
    return want


def tell_privately(want):
    AnswerFactory(want=want, name="sentinel-name", contact="sentinel-mail", words="sentinel-words")
    WantFactory(title="sentinel-unpublished")
    WantFactory(title="sentinel-closed", is_published=True, closed_at=LONG_AGO)
    SourceFactory(title="sentinel-source")


def stamp(seconds_ago):
    """Return the stamp of a page that was opened so long ago."""
    return OldSigner(seconds_ago).sign_object("answer")


def typed(**changed):
    told = {
        "words": "One lies behind our barn.",
        "name": "Ada Skarn",
        "contact": "ada@skarn.example",
        "has_consent": "on",
        "website": "",
        "stamp": stamp(60),
    }
    return {**told, **changed}


ADDRESSES = ["/wanted/", "/wanted/drawhead/", "/wanted/feed/", "/wanted/drawhead/thanks/"]


@pytest.mark.parametrize("address", ADDRESSES)
def test_public_pages_hold_nothing_private(client, want, address):
    answer = client.get(address)

    assert answer.status_code == 200
    assert "Drawhead" in answer.content.decode()
    assert "sentinel" not in answer.content.decode()


def test_public_sheet_holds_nothing_private(client, want):
    words = text_of(PdfReader(BytesIO(client.get("/wanted/drawhead/sheet/").content)))

    assert ("shank: 64 ± 0.5 mm" in words, "T.I. 207" in words) == (True, True)
    assert "http://testserver/wanted/drawhead/" in words
    assert "sentinel" not in words


def test_page_tells_what_to_look_for(client, want):
    ComponentAliasFactory(component=want.component, name="coupler head")

    told = client.get("/wanted/drawhead/").context["told"]

    assert told.dimensions == ("shank: 64 ± 0.5 mm", "length: 300 mm")
    assert (told.marks, told.vehicle, told.plate, told.picture) == ("T.I. 207", "", None, None)
    assert told.other_names == ("coupler head",)


def test_published_vehicle_picture_and_drawing_are_shown(client, want):
    for record in (want.vehicle, want.picture.part, want.drawing.vehicle_class):
        record.is_published = True
        record.save()
    for photo in (want.picture, want.drawing.picture):
        photo.is_published = True
        photo.save()

    told = client.get("/wanted/drawhead/").context["told"]

    assert (told.vehicle, told.picture) == ("sentinel-vehicle", want.picture)
    assert [spot.code for spot in told.plate.spots] == ["A"]


def test_page_can_be_shared_with_what_it_shows(client, want):
    words = client.get("/wanted/drawhead/").content.decode()

    assert '<meta property="og:title" content="Wanted: Drawhead">' in words
    assert '<meta property="og:url" content="http://testserver/wanted/drawhead/">' in words
    assert '<meta property="og:description" content="Cast iron, pocket for a link.">' in words


def test_want_that_was_never_public_is_not_there(client, db):
    want = WantFactory(closed_at=LONG_AGO)

    for name in ("wanted-detail", "wanted-thanks", "wanted-print"):
        assert client.get(reverse(name, args=[want.slug])).status_code == 404
    assert client.post(reverse("wanted-detail", args=[want.slug]), typed()).status_code == 404


CLOSED = {"closed_at": LONG_AGO, "is_published": True}


@pytest.mark.parametrize("state", [CLOSED, {"withdrawn_at": LONG_AGO}, {"is_published": False}])
def test_want_that_closed_says_so_and_tells_nothing_else(client, want, state):
    for name, value in state.items():
        setattr(want, name, value)
    want.save()

    for name in ("wanted-detail", "wanted-print"):
        answer = client.get(reverse(name, args=[want.slug]))
        words = answer.content.decode()
        assert (answer.status_code, "This want is closed" in words) == (410, True)
        assert ("sentinel" in words, "Cast iron" in words) == (False, False)
    assert client.get(reverse("wanted-thanks", args=[want.slug])).status_code == 200


def test_answer_to_a_want_that_closed_meanwhile_is_given_back(client, want):
    Answer.objects.all().delete()
    want.closed_at = LONG_AGO
    want.save()

    answer = client.post("/wanted/drawhead/", typed())

    words = answer.content.decode()
    assert (answer.status_code, Answer.objects.exists()) == (410, False)
    for text in ("nothing more is needed", "One lies behind our barn.", "ada@skarn.example"):
        assert text in words


def test_feed_is_atom_with_the_newest_first(client, want):
    WantFactory(title="Hinge", is_published=True, published_at=LONG_AGO + dt.timedelta(days=1))

    answer = client.get("/wanted/feed/")

    feed = ET.fromstring(answer.content)  # noqa: S314
    assert answer.headers["Content-Type"].startswith("application/atom+xml")
    assert [title.text for title in feed.iterfind(f"{ATOM}entry/{ATOM}title")] == [
        "Hinge",
        "Drawhead",
    ]
    assert feed.find(f"{ATOM}entry/{ATOM}link").get("href") == "http://testserver/wanted/hinge/"


def test_writer_is_told_who_will_read_the_answer(client, want):
    words = " ".join(client.get("/wanted/drawhead/").content.decode().split())

    assert "members of the group can read, and nobody outside." in words
    assert "can be read by members of the group, and by nobody outside." in words
    assert "nobody else" not in words


def test_answer_is_kept_and_thanked_for(client, want):
    Answer.objects.all().delete()

    answer = client.post("/wanted/drawhead/", typed())

    assert answer.url == "/wanted/drawhead/thanks/"
    kept = Answer.objects.get()
    assert (kept.want, kept.name, kept.words) == (want, "Ada Skarn", "One lies behind our barn.")
    assert len(kept.sender) == 64


@pytest.mark.parametrize(
    ("changed", "problem"),
    [
        ({"website": "http://spam.example"}, "The field that is to be left empty was filled."),
        ({"stamp": "forged"}, "The page was open for long."),
        ({"stamp": ""}, "The page was open for long."),
        ({"has_consent": ""}, "Please agree, or nothing can be kept."),
        ({"words": ""}, "This field is required."),
    ],
)
def test_answer_that_cannot_be_kept_keeps_what_was_typed(client, want, changed, problem):
    Answer.objects.all().delete()

    answer = client.post("/wanted/drawhead/", typed(**changed))

    words = answer.content.decode()
    assert (answer.status_code, problem in words, "Ada Skarn" in words) == (200, True, True)
    assert not Answer.objects.exists()


def test_answer_sent_too_quickly_goes_through_the_second_time(client, want):
    first = client.post("/wanted/drawhead/", typed(stamp=stamp(0)))
    late = client.post("/wanted/drawhead/", typed(stamp=stamp(2 * 24 * 3600)))

    assert "That was quick." in first.content.decode()
    new = late.context["form"]["stamp"].value()
    assert signing.loads(new, salt=STAMP) == "answer"


def test_flood_from_one_address_is_stopped(client, want):
    for _ in range(5):
        client.post("/wanted/drawhead/", typed())

    answer = client.post("/wanted/drawhead/", typed())

    assert "send it again in an hour" in answer.content.decode()
    elsewhere = client.post("/wanted/drawhead/", typed(), REMOTE_ADDR="192.0.2.9")
    assert elsewhere.status_code == 302


@pytest.mark.parametrize(("is_behind", "senders"), [(True, 2), (False, 1)])
def test_only_a_proxy_of_our_own_is_believed(client, want, settings, is_behind, senders):
    settings.BEHIND_PROXY = is_behind
    Answer.objects.all().delete()

    for address in ("198.51.100.1, 192.0.2.1", "198.51.100.1, 192.0.2.2"):
        client.post("/wanted/drawhead/", typed(), headers={"X-Forwarded-For": address})

    assert Answer.objects.values("sender").distinct().count() == senders


def test_empty_list_says_so(client, db):
    assert "Nothing is asked for at present." in client.get("/wanted/").content.decode()


def test_list_takes_the_same_queries_for_one_and_three(client, count_queries, db):
    WantFactory(is_published=True, picture=PhotoFactory())
    one = count_queries(client, "/wanted/")
    WantFactory.create_batch(2, is_published=True, picture=PhotoFactory())

    assert count_queries(client, "/wanted/") == one
