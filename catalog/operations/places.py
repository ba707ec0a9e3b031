"""Recording locations, and changing where they are in the tree."""

from collections.abc import Mapping
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import Location, Member
from catalog.operations.lineages import hold_tree, path_of
from catalog.operations.record import change, record_new
from catalog.operations.tags import tag_for


@transaction.atomic
def record_location(values: Mapping[str, Any], *, by: Member) -> Location:
    """Record a location with ``values`` by the names of its fields; only a name is needed.

    ``parent`` is the location it is in. Refuse a name that is there already, a tag that is on
    something else, and a parent that is withdrawn.
    """
    return record_new(Location, _told(Location(), values), by=by)


@transaction.atomic
def change_location(
    location: Location, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> Location:
    """Change a location; the paths of all that it contains follow.

    Refuse to put it inside itself or inside what it contains.
    """
    hold_tree()
    return change(location, _told(location, values), by=by, seen=seen)


def _told(location: Location, values: Mapping[str, Any]) -> dict[str, Any]:
    told = dict(values)
    if "name" in told:
        told["name"] = " ".join(told["name"].split())
    if "tag" in told:
        told["tag"] = tag_for(location, told["tag"])
    parent = told.get("parent", location.parent)
    _refuse_parent(location, parent)
    told["path"] = path_of(Location(name=told.get("name", location.name), parent=parent))
    return told


def _refuse_parent(location: Location, parent: Location | None) -> None:
    if parent is None:
        return
    if parent.is_withdrawn:
        raise ValidationError({"parent": f"{parent} is withdrawn; choose another place."})
    if location.pk and parent.pk == location.pk:
        raise ValidationError({"parent": f"{location.name} cannot be inside itself."})
    if location.pk and f"/{location.pk}/" in parent.lineage:
        raise ValidationError(
            {"parent": f"{parent.name} is itself inside {location.name}: not both ways round."}
        )
