"""Showing a record to visitors, and taking it back from them."""

from typing import TypeVar

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import Member
from catalog.models.withdrawals import Withdrawable
from catalog.operations.record import change

Shown = TypeVar("Shown", bound=Withdrawable)


@transaction.atomic
def publish(record: Shown, *, by: Member) -> Shown:
    """Let visitors see a record, its photos apart; refuse one that is withdrawn."""
    if record.is_withdrawn:
        raise ValidationError("It is withdrawn. Bring it back before visitors may see it.")
    return change(record, {"is_published": True}, by=by, why="published")


@transaction.atomic
def unpublish(record: Shown, *, by: Member) -> Shown:
    """Take a record back from visitors; what they have printed they keep."""
    return change(record, {"is_published": False}, by=by, why="no longer published")
