"""Adding photos to records, saying what they show, and pointing at things on them."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any, TypedDict, Unpack
from uuid import UUID

from django.core.exceptions import ValidationError
from django.db import models, transaction
from django.utils import timezone

from catalog.models import (
    Accession,
    Component,
    Location,
    Member,
    Part,
    Patent,
    Photo,
    PhotoSpot,
    Removal,
    Source,
    Trial,
    Vehicle,
    VehicleClass,
)
from catalog.models.photos import PICTURED
from catalog.operations.picture_files import KeptPicture, PictureFile, keep_picture
from catalog.operations.record import bring_back, change, record_new, withdraw


class Shown(TypedDict, total=False):
    """What is said of a photo: exactly one record that it shows, and words."""

    part: Part
    vehicle: Vehicle
    vehicle_class: VehicleClass
    component: Component
    source: Source
    patent: Patent
    accession: Accession
    location: Location
    removal: Removal
    trial: Trial
    role: str
    caption: str
    is_published: bool
    name: str
    capture_id: UUID | None
    taken_at: datetime | None
    at: datetime | None


def add_photo(file: PictureFile, *, by: Member, **shown: Unpack[Shown]) -> Photo:
    """Add the photograph in ``file`` to one record, as its main photo if it is the first.

    ``shown`` names the record (``part=``, ``vehicle=`` …), and may give ``role``, ``caption``,
    the file's ``name``, ``is_published``, ``at``, ``taken_at`` where the file itself may not say
    it, and the ``capture_id`` made on a phone: the same capture sent again returns the photo
    that is there. Refuse what is no photograph and
    the same photograph twice on one record; on another record it is a twin, to be shown.
    """
    return record_photo(keep_picture(file, name=shown.get("name", "")), by=by, **shown)


def add_photos(
    files: Iterable[PictureFile], *, by: Member, **shown: Unpack[Shown]
) -> tuple[list[Photo], list[str]]:
    """Add several photographs; return those added, and what was refused of the others, in words.

    Each stands for itself, so that one file picked by mistake does not lose the others.
    """
    added, refused = [], []
    for file in files:
        try:
            added.append(add_photo(file, by=by, **shown))
        except ValidationError as refusal:
            refused.append(f"{file.name}: {' '.join(refusal.messages)}")
    return added, refused


@transaction.atomic
def record_photo(picture: KeptPicture, *, by: Member, **shown: Unpack[Shown]) -> Photo:
    """Record a photo whose file is kept already; see ``add_photo``."""
    link, subject = _subject(shown)
    # Two photos that arrive at once would both become the main one.
    type(subject)._default_manager.select_for_update().get(pk=subject.pk)
    capture_id = shown.get("capture_id")
    if former := capture_id and Photo.objects.filter(capture_id=capture_id).first():
        return _same_capture(former, picture, by)
    _refuse_twice(link, subject, picture)
    own = Photo.objects.filter(**{link: subject})
    last = own.aggregate(last=models.Max("sequence"))["last"]
    values = {
        link: subject,
        "capture_id": capture_id,
        "is_main": not own.kept().filter(is_main=True).exists(),
        "sequence": 0 if last is None else last + 1,
        "added_at": shown.get("at") or timezone.now(),
        "added_by": by,
        "role": shown.get("role", Photo.PictureRole.OVERALL),
        "caption": shown.get("caption", ""),
        "is_published": shown.get("is_published", False),
    }
    return record_new(Photo, {**values, **_of_file(picture, shown.get("taken_at"))}, by=by)


def measuring_photo(component: Component, kept: KeptPicture, name: str, *, by: Member) -> Photo:
    """Return the photo that shows where ``name`` is measured: the component's own, or a new one."""
    own = component.photos.kept().filter(sha256=kept.facts.sha256).first()
    caption = f"Where the {name} of the {component} is measured"
    role = Photo.PictureRole.MEASURING
    return own or record_photo(kept, by=by, component=component, role=role, caption=caption)


@transaction.atomic
def change_photo(
    photo: Photo, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> Photo:
    """Change a photo's role, caption, order, or whether visitors may see it."""
    return change(photo, values, by=by, seen=seen)


@transaction.atomic
def make_main_photo(photo: Photo, *, by: Member) -> Photo:
    """Make this the main photo of its record, in place of the one that was."""
    if photo.is_withdrawn:
        raise ValidationError("This photo is withdrawn; bring it back first.")
    for other in _beside(photo).filter(is_main=True):
        change(other, {"is_main": False}, by=by, why="no longer the main photo")
    return change(photo, {"is_main": True}, by=by, why="made the main photo")


@transaction.atomic
def withdraw_photo(photo: Photo, *, by: Member, reason: str, at: datetime | None = None) -> Photo:
    """Withdraw a photo with a ``reason``; the next in order becomes the main one if need be."""
    if photo.is_main:
        change(photo, {"is_main": False}, by=by, why="no longer the main photo")
        if heir := _beside(photo).in_order().first():
            change(heir, {"is_main": True}, by=by, why="made the main photo")
    return withdraw(photo, by=by, reason=reason, at=at)


@transaction.atomic
def bring_back_photo(photo: Photo, *, by: Member) -> Photo:
    """Bring a withdrawn photo back, as the main one where there is none."""
    bring_back(photo, by=by)
    if not photo.is_main and not _beside(photo).filter(is_main=True).exists():
        change(photo, {"is_main": True}, by=by, why="made the main photo")
    return photo


@transaction.atomic
def point_at(photo: Photo, x: float, y: float, words: str, *, by: Member) -> PhotoSpot:
    """Point at a spot of a photo: ``x`` and ``y`` are fractions from its upper left corner."""
    spot = {"photo": photo, "x": x, "y": y, "words": words.strip()}
    return record_new(PhotoSpot, spot, by=by, why="pointed at")


@transaction.atomic
def remove_spot(spot: PhotoSpot, *, by: Member) -> None:
    """Take a spot off its photo; its words stay in the history."""
    spot._history_user = by  # type: ignore[attr-defined]
    spot._change_reason = "no longer pointed at"  # type: ignore[attr-defined]
    spot.delete()


def _subject(shown: Shown) -> tuple[str, models.Model]:
    named: list[tuple[str, Any]] = [(link, shown[link]) for link in PICTURED if link in shown]  # type: ignore[literal-required]
    if len(named) != 1:
        raise ValidationError("A photo belongs to exactly one record.")
    return named[0]


def _same_capture(former: Photo, picture: KeptPicture, by: Member) -> Photo:
    if former.sha256 != picture.facts.sha256 or former.added_by_id != by.pk:
        raise ValidationError("Another photo came in the place of this one. Take it again.")
    return former


def _refuse_twice(link: str, subject: models.Model, picture: KeptPicture) -> None:
    former = Photo.objects.filter(**{link: subject}, sha256=picture.facts.sha256).first()
    if former is None:
        return
    if former.is_withdrawn:
        raise ValidationError(
            f"This photo was here and was withdrawn ({former.withdrawn_reason}); bring it back."
        )
    raise ValidationError(f"This photo was added before, as “{former}”.")


def _of_file(picture: KeptPicture, told: datetime | None) -> dict[str, Any]:
    facts = picture.facts
    by_the_camera = facts.taken_at
    if by_the_camera and timezone.is_naive(by_the_camera):
        by_the_camera = timezone.make_aware(by_the_camera)
    return {
        "original": picture.original,
        "original_name": picture.name,
        "sha256": facts.sha256,
        "media_type": facts.media_type,
        "byte_size": facts.byte_size,
        "width": facts.width,
        "height": facts.height,
        "taken_at": by_the_camera or told,
    }


def _beside(photo: Photo) -> Any:
    links = {link: getattr(photo, f"{link}_id") for link in PICTURED}
    own = {link: pk for link, pk in links.items() if pk is not None}
    return Photo.objects.kept().filter(**own).exclude(pk=photo.pk)
