"""What visitors may read of wants: published ones only, as plain words."""

from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import AnonymousUser

from catalog.models import Photo, Want
from catalog.queries.photos import seen_by
from catalog.queries.vehicles import Plate
from catalog.queries.wants import want_sheet


@dataclass(frozen=True, slots=True)
class PublicWantRow:
    """A want as the public list shows it."""

    title: str
    url: str
    component: str
    quantity: int
    helps: tuple[str, ...]
    picture: Photo | None


@dataclass(frozen=True, slots=True)
class PublicWant:
    """All that a visitor reads of one want; a vehicle is named only if it is published."""

    title: str
    slug: str
    component: str
    definition: str
    other_names: tuple[str, ...]
    quantity: int
    words: str
    dimensions: tuple[str, ...]
    marks: str
    helps: tuple[str, ...]
    picture: Photo | None
    plate: Plate | None
    vehicle: str
    vehicle_url: str
    published_at: datetime | None


def public_wants() -> list[PublicWantRow]:
    """Return the published wants in so many queries however many."""
    wants = list(Want.objects.published().select_related("component").order_by("title"))
    keys = [want.picture_id for want in wants if want.picture_id is not None]
    photos = seen_by(AnonymousUser()).in_bulk(keys)
    return [
        PublicWantRow(
            title=want.title,
            url=want.get_public_url(),
            component=str(want.component),
            quantity=want.quantity,
            helps=tuple(want.helps),
            picture=photos.get(want.picture_id or 0),
        )
        for want in wants
    ]


def public_want(want: Want) -> PublicWant:
    """Return what a visitor reads of a published want."""
    sheet = want_sheet(want, for_visitor=True)
    vehicle = want.vehicle
    is_told = vehicle is not None and vehicle.is_published and not vehicle.is_withdrawn
    return PublicWant(
        title=want.title,
        slug=want.slug,
        component=str(want.component),
        definition=want.component.definition,
        other_names=tuple(alias.name for alias in want.component.aliases.all()),
        quantity=want.quantity,
        words=want.words,
        dimensions=sheet.dimensions,
        marks=want.marks,
        helps=tuple(want.helps),
        picture=sheet.picture,
        plate=sheet.plate,
        vehicle=str(vehicle) if is_told else "",
        vehicle_url=vehicle.get_absolute_url() if vehicle is not None and is_told else "",
        published_at=want.published_at,
    )
