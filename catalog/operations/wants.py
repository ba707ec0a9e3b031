"""Writing down a want, making it public, and closing it."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalog.models import Member, Want
from catalog.operations.record import change, keep, record_new
from catalog.operations.slugs import unique_slug


@transaction.atomic
def record_want(values: Mapping[str, Any], *, by: Member) -> Want:
    """Write down a want with ``values`` by the names of its fields.

    A title and a component are needed. ``queries.wants.asked_of`` gives values for a position.
    Nobody outside sees it before it is published.
    """
    slug = unique_slug(Want, str(values.get("title", "")))
    return record_new(Want, {**values, "slug": slug}, by=by, why="want written")


@transaction.atomic
def change_want(
    want: Want, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> Want:
    """Change a want; its address stays, so that printed sheets keep leading to it."""
    return change(want, values, by=by, seen=seen)


@transaction.atomic
def publish_want(want: Want, *, by: Member, at: datetime | None = None) -> Want:
    """Let everybody read the want and answer it; refuse one that is closed or withdrawn."""
    _lock(want)
    if want.is_withdrawn:
        raise ValidationError(f"“{want}” is withdrawn: {want.withdrawn_reason}.")
    if not want.is_open:
        raise ValidationError(f"“{want}” is closed. Open it again first.")
    if not want.helps:
        raise ValidationError("Say what would help: the piece, a photograph, a drawing or a look.")
    want.is_published, want.published_at = True, want.published_at or at or timezone.now()
    return keep(want, by=by, why="published", fields=("is_published", "published_at"))


@transaction.atomic
def hide_want(want: Want, *, by: Member) -> Want:
    """Take the want out of the public pages; answers that came stay."""
    _lock(want)
    want.is_published = False
    return keep(want, by=by, why="taken out of the public pages", fields=("is_published",))


@transaction.atomic
def close_want(want: Want, *, words: str = "", by: Member, at: datetime | None = None) -> Want:
    """Close the want, as when it was answered; ``words`` say how. No more answers come."""
    _lock(want)
    if not want.is_open:
        raise ValidationError(f"“{want}” is closed already.")
    want.closed_at, want.closing_words = at or timezone.now(), words.strip()
    why = f"closed: {want.closing_words}" if want.closing_words else "closed"
    return keep(want, by=by, why=why, fields=("closed_at", "closing_words"))


@transaction.atomic
def reopen_want(want: Want, *, by: Member) -> Want:
    """Open a closed want again, public if it was."""
    _lock(want)
    want.closed_at, want.closing_words = None, ""
    return keep(want, by=by, why="opened again", fields=("closed_at", "closing_words"))


def _lock(want: Want) -> None:
    want.refresh_from_db(from_queryset=Want.objects.select_for_update())
