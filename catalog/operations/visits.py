"""Noting when a member was here, for their own use."""

from datetime import datetime

from django.db import transaction
from django.utils import timezone

from catalog.models import Member, Visit
from catalog.reckoning.stays import Stay, opened


@transaction.atomic
def note_visit(member: Member, *, at: datetime | None = None) -> Stay:
    """Note that ``member`` looks at the shop now, and return since when things are news to them.

    Nothing is written when that was noted within the half hour before.
    """
    held = Visit.objects.select_for_update().filter(member=member).first()
    former = held.stay if held else None
    stay = opened(former, at or timezone.now())
    if stay is not former:
        now = {"opened_at": stay.opened_at, "since": stay.since, "is_over": stay.is_over}
        Visit.objects.update_or_create(member=member, defaults=now)
    return stay


@transaction.atomic
def end_visit(member: Member) -> None:
    """Say that the visit of ``member`` is over, as by signing out; the next look begins another."""
    Visit.objects.filter(member=member).update(is_over=True)
