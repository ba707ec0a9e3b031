"""Taking in: a piece recorded where it lies, with a photo or a line of words and little else."""

from collections.abc import Iterable
from datetime import datetime
from decimal import Decimal
from typing import Any, TypedDict, Unpack
from uuid import UUID

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import (
    Accession,
    Component,
    Hazard,
    Identification,
    Location,
    Member,
    Part,
    VehicleClass,
)
from catalog.operations.identifications import propose_identification
from catalog.operations.marks import add_mark
from catalog.operations.measurements import Reading, record_measurement
from catalog.operations.parts import record_part
from catalog.operations.photos import record_photo
from catalog.operations.picture_files import KeptPicture, PictureFile, keep_picture
from catalog.operations.record import change, withdraw

OF_THE_PART = ("description", "tag", "quantity", "usability", "surviving_share", "location")


class Capture(TypedDict, total=False):
    """What is known of a piece when it comes in; everything can be left out."""

    description: str
    photos: Iterable[PictureFile | KeptPicture]
    photos_follow: bool
    tag: str | None
    quantity: int
    component: Component | None
    vehicle_class: VehicleClass | None
    mark: str
    measurement: Reading | None
    usability: str
    surviving_share: Decimal
    hazards: Iterable[Hazard]
    accession: Accession | None
    location: Location | None
    capture_id: UUID | None
    at: datetime | None


def take_in(*, by: Member, **capture: Unpack[Capture]) -> Part:
    """Record a piece that came in, all of it or nothing.

    The part gets the next number of its ``accession``, is moved to ``location``, and a
    ``component`` is proposed as ``by``'s guess. ``measurement`` is what ``record_measurement``
    takes. One photo or one line of words is necessary; ``photos_follow=True`` says that the
    photos are sent one by one afterwards. The ``capture_id`` is made on the phone: a capture
    that is sent again returns the part that is there and records nothing.
    """
    # Kept before the transaction begins, so that nobody waits while pictures are made smaller.
    pictures, refused = hold_photos(capture.get("photos", ()))
    if refused:
        raise ValidationError({"photos": refused})
    _refuse_nothing(capture, pictures)
    try:
        return _record(capture, pictures, by)
    except ValidationError:
        # Its id is kept once, so a capture that comes again is refused here, at once or later.
        if former := taken_in(capture.get("capture_id"), by=by):
            return former
        raise


def taken_in(capture_id: UUID | None, *, by: Member) -> Part | None:
    """Return the part of a capture that was sent before; refuse one that another member sent."""
    sent = Part.objects.filter(capture_id=capture_id)
    # Most pieces are new, and asking for a whole row costs more than asking whether there is one.
    if capture_id is None or not sent.exists():
        return None
    part = sent.select_related("recorded_by").get()
    if part.recorded_by_id != by.pk:
        raise ValidationError(f"{part.recorded_by} took this piece in before: it is {part}.")
    return part


def hold_photos(
    photos: Iterable[PictureFile | KeptPicture],
) -> tuple[list[KeptPicture], list[str]]:
    """Keep the files of photos whose piece is not recorded yet; return what was refused in words.

    The same photo twice is held once, so that an impatient second choice harms nothing.
    """
    held: dict[str, KeptPicture] = {}
    refused = []
    for photo in photos:
        try:
            picture = photo if isinstance(photo, KeptPicture) else keep_picture(photo)
            held.setdefault(picture.facts.sha256, picture)
        except ValidationError as refusal:
            refused.append(f"{getattr(photo, 'name', 'Photo')}: {' '.join(refusal.messages)}")
    return list(held.values()), refused


@transaction.atomic
def undo_capture(part: Part, *, by: Member) -> Part:
    """Undo one's own capture: the part is withdrawn, its number stays used, its tag is free."""
    if part.recorded_by_id != by.pk:
        raise ValidationError("Only who took a piece in can undo it; a curator can withdraw it.")
    if part.tag:
        change(part, {"tag": None}, by=by, why="tag taken off")
    return withdraw(part, by=by, reason="taken in by mistake")


@transaction.atomic
def _record(capture: Capture, pictures: list[KeptPicture], by: Member) -> Part:
    at = capture.get("at")
    values: dict[str, Any] = {
        name: value for name, value in capture.items() if name in OF_THE_PART and value is not None
    }
    values |= {"hazards": capture.get("hazards", ()), "capture_id": capture.get("capture_id")}
    part = record_part(values, by=by, accession=capture.get("accession"), at=at)
    if component := capture.get("component"):
        _guess(part, component, capture, by)
    if mark := capture.get("mark", "").strip():
        add_mark(part, mark, by=by)
    if measurement := capture.get("measurement"):
        _measure(part, measurement, capture, by)
    for picture in pictures:
        record_photo(picture, by=by, part=part, at=at)
    return part


def _guess(part: Part, component: Component, capture: Capture, by: Member) -> None:
    propose_identification(
        part,
        by=by,
        component=component,
        vehicle_class=capture.get("vehicle_class"),
        confidence=Identification.Confidence.GUESS,
        at=capture.get("at"),
    )


def _measure(part: Part, measurement: Reading, capture: Capture, by: Member) -> None:
    reading: Reading = {**measurement, "at": capture.get("at")}
    try:
        record_measurement(part, by=by, **reading)
    except ValidationError as refusal:
        raise ValidationError({"measurement": refusal.messages}) from refusal


def _refuse_nothing(capture: Capture, pictures: list[KeptPicture]) -> None:
    words = f"{capture.get('description', '')}{capture.get('mark', '')}".strip()
    if not (words or pictures or capture.get("photos_follow")):
        raise ValidationError("Take one photo, or write one line of words.")
