"""Photos by what they show, who may see them, and where else the same one is."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.contrib.auth.models import AnonymousUser
from django.db import models

from catalog.models import Member, Photo, Role
from catalog.models.photos import PICTURED, PhotoQuerySet
from catalog.queries.records import KINDS, link_name

# The words of addresses under which photos can be added, and the link of a photo to each.
PICTURED_KINDS = {
    kind: kind.replace("-", "_") for kind in KINDS if kind.replace("-", "_") in PICTURED
}
# Accessions, locations, removals and trials tell of donors and sheds, so they are never public;
# a component has nothing private, so there the photo's own mark decides.
PUBLISHED = ("part", "vehicle", "vehicle_class", "source", "patent")


@dataclass(frozen=True, slots=True)
class NumberedSpot:
    """A spot as it is drawn over the photo and listed below it."""

    pk: int
    number: int
    across: str
    down: str
    words: str


def main_photos(link: str, keys: Iterable[int]) -> dict[int, Photo]:
    """Return the main photo of each record that has one, by the record's key, in one query."""
    found = Photo.objects.kept().filter(is_main=True, **{f"{link}__in": list(keys)})
    return {getattr(photo, f"{link}_id"): photo for photo in found}


def photos_for(record: models.Model, *, for_visitor: bool = False) -> PhotoQuerySet:
    """Return the photos of a record in order; for a visitor only the published ones."""
    own = Photo.objects.in_order().filter(**{link_name(record): record})
    return own.filter(is_published=True) if for_visitor else own


def seen_by(viewer: Member | AnonymousUser) -> PhotoQuerySet:
    """Return the photos that ``viewer`` may see: a visitor only what is published throughout."""
    if isinstance(viewer, Member) and viewer.may(Role.VOLUNTEER):
        return Photo.objects.all()
    of_published = models.Q(component__withdrawn_at__isnull=True, component__isnull=False)
    for link in PUBLISHED:
        of_published |= models.Q(
            **{f"{link}__is_published": True, f"{link}__withdrawn_at__isnull": True}
        )
    return Photo.objects.kept().filter(of_published, is_published=True)


def pictured(photo: Photo) -> models.Model:
    """Return the record that the photo shows."""
    link = next(link for link in PICTURED if getattr(photo, f"{link}_id") is not None)
    record: models.Model = getattr(photo, link)
    return record


def numbered_spots(photo: Photo) -> list[NumberedSpot]:
    return [
        NumberedSpot(spot.pk, number, f"{spot.x:.3%}", f"{spot.y:.3%}", spot.words)
        for number, spot in enumerate(photo.spots.all(), start=1)
    ]


def same_elsewhere(photos: Iterable[Photo]) -> list[tuple[Photo, models.Model]]:
    """Return the same photographs as ``photos`` with the other records at which they are."""
    own = list(photos)
    same = Photo.objects.kept().filter(sha256__in=[photo.sha256 for photo in own])
    others = same.exclude(pk__in=[photo.pk for photo in own]).select_related(*PICTURED)
    return [(other, pictured(other)) for other in others]
