"""What bears a tag: a part, or a location."""

from catalog.models import Location, Part


def bearer_of(code: str) -> Part | Location | None:
    """Return what the tag of this code is on; a withdrawn record keeps its tag."""
    part = Part.objects.select_related("component").filter(tag=code).first()
    return part or Location.objects.filter(tag=code).first()
