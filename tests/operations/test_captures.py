"""Taking in: all of a piece or nothing, once, with as little as one photo or one line."""

import io
from decimal import Decimal
from functools import partial
from uuid import UUID

import pytest
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import SimpleUploadedFile

from catalog.models import Hazard, Identification, Measurement, Move, Part, PartMark, Photo
from catalog.operations.captures import hold_photos, take_in, undo_capture
from catalog.operations.parts import record_part
from catalog.reckoning.lengths import parse_length
from tests.factories import (
    AccessionFactory,
    CharacteristicFactory,
    InstrumentFactory,
    LocationFactory,
    PartFactory,
    VehicleClassFactory,
)
from tests.samples import picture

pytestmark = pytest.mark.django_db
CAPTURE = UUID("6f9619ff-8b86-4d01-b42d-00cf4fc964ff")
TAG = "K7Q-2M9V"


def test_take_in_needs_one_line_of_words_only(member):
    part = take_in(by=member, description="bent strap")

    assert (part.description, part.quantity, part.usability) == ("bent strap", 1, "unassessed")
    assert (part.identification_status, part.location) == ("unidentified", None)


def test_take_in_needs_one_photo_only(member):
    part = take_in(by=member, photos=[picture()])

    assert part.photos.get().is_main


def test_take_in_of_nothing_is_refused(member):
    with pytest.raises(ValidationError, match="Take one photo, or write one line of words"):
        take_in(by=member, tag=TAG, description=" ")


def test_take_in_whose_photos_follow_needs_nothing_yet(member):
    assert take_in(by=member, tag=TAG, photos_follow=True).tag == TAG


@pytest.fixture
def known_piece(member):
    """Take a piece in of which everything is known."""
    box = CharacteristicFactory(name="bore", component__name="journal box").component
    return take_in(
        by=member,
        description="found under the bench",
        photos=[picture("teal"), picture("gray")],
        quantity=3,
        component=box,
        vehicle_class=VehicleClassFactory(designation="E"),
        mark="M.F.T. 2?7",
        measurement={
            "length": parse_length("2 1/2 in"),
            "name": "bore",
            "instrument": InstrumentFactory(),
        },
        usability=Part.Usability.REPAIR,
        surviving_share=Decimal("0.5"),
        hazards=Hazard.objects.order_by("pk")[:1],
        accession=AccessionFactory(year=2026, serial=4),
        location=LocationFactory(name="Rack 2"),
    )


def test_take_in_records_what_the_piece_is_like(known_piece):
    part = Part.objects.get(pk=known_piece.pk)

    assert (part.number, part.quantity, part.surviving_share) == ("2026.4.1", 3, Decimal("0.5"))
    assert (part.usability, part.location.name) == ("repair", "Rack 2")
    assert list(part.hazards.all()) == [Hazard.objects.order_by("pk").first()]
    assert part.photos.count() == 2
    assert Move.objects.get().to_location == part.location


def test_take_in_proposes_marks_and_measures(known_piece):
    part = Part.objects.get(pk=known_piece.pk)

    assert (part.component.name, part.identification_status) == ("journal box", "proposed")
    assert Identification.objects.get().confidence == Identification.Confidence.GUESS
    assert PartMark.objects.get().text == "M.F.T. 2?7"
    assert Measurement.objects.get().characteristic.name == "bore"


def test_take_in_sent_again_is_recorded_once(member):
    sent = {"description": "strap", "photos": [picture()], "capture_id": CAPTURE}

    parts = [take_in(by=member, **sent) for _ in range(3)]

    assert parts[0] == parts[1] == parts[2] == Part.objects.get()
    assert Photo.objects.count() == 1


def test_take_in_under_the_mark_of_another_member_is_refused(member, curator):
    take_in(by=member, description="strap", capture_id=CAPTURE)

    with pytest.raises(ValidationError, match="walt took this piece in before"):
        take_in(by=curator, description="strap", capture_id=CAPTURE)


class OvertakenPhoto(io.BytesIO):
    """A photo during whose reading the same capture comes in by another way."""

    def __init__(self, rival):
        super().__init__(picture().read())
        self.rivals = [rival]

    def seek(self, *place):
        if self.rivals:
            self.rivals.pop()()
        return super().seek(*place)


def test_take_in_overtaken_by_its_own_copy_returns_that(member):
    rival = partial(record_part, {"capture_id": CAPTURE}, by=member)

    part = take_in(by=member, photos=[OvertakenPhoto(rival)], capture_id=CAPTURE)

    assert part == Part.objects.get()
    assert not Photo.objects.exists()


def test_take_in_of_the_same_photo_twice_keeps_it_once(member):
    part = take_in(by=member, photos=[picture(name="a.jpg"), picture(name="b.jpg")])

    assert part.photos.get().original_name == "a.jpg"


def test_take_in_with_a_file_that_is_no_photo_records_nothing(member):
    sheet = SimpleUploadedFile("bolt.jpg", b"%PDF-1.7")

    with pytest.raises(ValidationError) as refusal:
        take_in(by=member, description="bolt", photos=[picture(), sheet])

    assert list(refusal.value.message_dict) == ["photos"]
    assert refusal.value.messages[0].startswith("bolt.jpg: This is a PDF document")
    assert not Part.objects.exists()
    assert not Photo.objects.exists()


def test_take_in_under_a_tag_in_use_says_where_it_is(member):
    PartFactory(number="2026.4.18", description="journal box", tag=TAG)

    with pytest.raises(ValidationError, match=r"tied to 2026\.4\.18, journal box"):
        take_in(by=member, description="strap", tag=TAG, photos=[picture()])

    assert not Photo.objects.exists()


def test_take_in_refused_at_its_last_step_leaves_nothing(member):
    box = CharacteristicFactory(name="bore").component
    accession = AccessionFactory()
    reading = {"length": parse_length("14 mm"), "name": "flange"}

    with pytest.raises(ValidationError) as refusal:
        take_in(by=member, description="x", component=box, measurement=reading, accession=accession)

    assert list(refusal.value.message_dict) == ["measurement"]
    assert not Part.objects.exists()
    assert not Identification.objects.exists()


def test_undo_capture_frees_the_tag_and_never_the_number(member):
    accession = AccessionFactory(year=2026, serial=4)
    part = take_in(by=member, description="strap", tag=TAG, accession=accession)

    undo_capture(part, by=member)

    again = take_in(by=member, description="strap", tag=TAG, accession=accession)
    assert (part.is_withdrawn, again.number) == (True, "2026.4.2")


def test_undo_capture_of_another_member_is_refused(member, curator):
    part = take_in(by=member, description="strap")

    with pytest.raises(ValidationError, match="Only who took a piece in"):
        undo_capture(part, by=curator)


def test_hold_photos_keeps_the_good_ones_and_tells_of_the_others(db):
    held, refused = hold_photos([picture(), SimpleUploadedFile("empty.jpg", b"")])

    assert [one.name for one in held] == ["casting.jpg"]
    assert refused[0].startswith("empty.jpg: The file is empty (0 bytes).")
