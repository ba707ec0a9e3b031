"""What bears a tag: a part, or a location; and which tags were printed."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from django.db import models
from django.db.models import Count, Exists, Max, OuterRef, Q

from catalog.models import Location, Member, Part, PrintedTag


def bearer_of(code: str) -> Part | Location | None:
    """Return what the tag of this code is on; a withdrawn record keeps its tag."""
    part = Part.objects.select_related("component").filter(tag=code).first()
    return part or Location.objects.filter(tag=code).first()


def taken_words(code: str, bearer: models.Model) -> str:
    """Say to whoever has tag ``code`` in hand what it belongs to, and what to do."""
    place = "is on the location" if isinstance(bearer, Location) else "is tied to"
    what = getattr(bearer, "component", None) or getattr(bearer, "description", "")
    named = ", ".join(filter(None, [str(bearer), str(what or "")]))
    gone = ", which was withdrawn" if getattr(bearer, "is_withdrawn", False) else ""
    return f"Tag {code} {place} {named}{gone}. Take another tag."


def bearers_of(codes: Iterable[str]) -> dict[str, Part | Location]:
    """Return what bears each of the tags that are in use, in two queries."""
    wanted = set(codes)
    parts = Part.objects.select_related("component").filter(tag__in=wanted)
    locations = Location.objects.filter(tag__in=wanted)
    return {str(row.tag): row for row in (*locations, *parts)}


def codes_in_use(codes: Iterable[str]) -> set[str]:
    """Return those of the codes that were printed or that anything bears or ever bore."""
    wanted = list(codes)
    # A tag that was taken off is still on somebody's bench, so the histories are asked too.
    bearers = [Part.objects, Location.objects, Part.history, Location.history]
    used = set(PrintedTag.objects.filter(code__in=wanted).values_list("code", flat=True))
    for rows in bearers:
        used |= set(rows.filter(tag__in=wanted).values_list("tag", flat=True))
    return used


@dataclass(frozen=True, slots=True)
class Printing:
    """Tags that were printed together, and how many of them are on something by now."""

    sheet: int
    printed_at: dt.datetime
    printed_by: Member
    count: int
    in_use: int


def latest_printings(most: int = 8) -> list[Printing]:
    """Return the last printings, newest first, in two queries."""
    on_part = Exists(Part.objects.filter(tag=OuterRef("code")))
    on_location = Exists(Location.objects.filter(tag=OuterRef("code")))
    rows = (
        PrintedTag.objects.order_by("-sheet")
        .values("sheet", "printed_by")
        .annotate(
            printed=Max("printed_at"),
            count=Count("pk"),
            in_use=Count("pk", filter=Q(on_part | on_location)),
        )[:most]
    )
    found = list(rows)
    members = Member.objects.in_bulk({row["printed_by"] for row in found})
    return [
        Printing(
            row["sheet"], row["printed"], members[row["printed_by"]], row["count"], row["in_use"]
        )
        for row in found
    ]
