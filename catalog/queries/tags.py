"""What bears a tag: a part, or a location."""

from collections.abc import Iterable

from catalog.models import Location, Part


def bearer_of(code: str) -> Part | Location | None:
    """Return what the tag of this code is on; a withdrawn record keeps its tag."""
    part = Part.objects.select_related("component").filter(tag=code).first()
    return part or Location.objects.filter(tag=code).first()


def bearers_of(codes: Iterable[str]) -> dict[str, Part | Location]:
    """Return what bears each of the tags that are in use, in two queries."""
    wanted = set(codes)
    parts = Part.objects.select_related("component").filter(tag__in=wanted)
    locations = Location.objects.filter(tag__in=wanted)
    return {str(row.tag): row for row in (*locations, *parts)}
