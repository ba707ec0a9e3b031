"""Keep the derived path and lineage of a location, and of all below it, in step with the tree."""

from django.core.exceptions import ValidationError
from django.db import models

from catalog.models import Location
from catalog.operations.searching import index_record

ARROW = " › "
# What the columns of path and lineage can hold with room to spare.
LONGEST_PATH = 500
DEEPEST = 12


def path_of(location: Location) -> str:
    """Return the names from the site down to ``location``, refusing what is too long to keep."""
    name = location.name.strip()
    path = f"{location.parent.path}{ARROW}{name}" if location.parent else name
    too_deep = location.parent is not None and location.parent.depth >= DEEPEST
    if too_deep or len(path) > LONGEST_PATH:
        raise ValidationError(
            {"parent": "There are too many places above this one; choose one nearer to the site."}
        )
    return path


def hold_tree() -> None:
    """Make others who would change the tree of locations wait until this transaction ends."""
    list(Location.objects.select_for_update().order_by("pk").values_list("pk"))


def renew_lineages(record: models.Model) -> None:
    """Renew what is derived from the tree, after ``record`` was kept, where it is a location.

    Path and lineage follow from names and parents and are no statement of anybody, so they
    are written without a history entry, as the search words are.
    """
    if isinstance(record, Location):
        _renew(record)
        for child in Location.objects.filter(parent=record).select_related("parent"):
            renew_below(child)


def renew_below(location: Location) -> None:
    """Renew a location and all below it, down to where nothing differs any more."""
    if _renew(location):
        for child in Location.objects.filter(parent=location).select_related("parent"):
            renew_below(child)


def _renew(location: Location) -> bool:
    above = location.parent.lineage if location.parent else "/"
    derived = {"path": path_of(location), "lineage": f"{above}{location.pk}/"}
    location.path, location.lineage = derived["path"], derived["lineage"]
    if not Location.objects.filter(pk=location.pk).exclude(**derived).update(**derived):
        return False
    index_record(location)
    return True
