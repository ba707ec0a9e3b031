"""Who may sign in and what as; passwords are kept out of the history."""

from collections.abc import Mapping
from random import SystemRandom
from typing import Any, TypedDict

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import Member, Role
from catalog.operations.record import change, keep
from catalog.reckoning.codes import TAG_ALPHABET, Chooser

_GROUPS, _GROUP = 3, 4


class Person(TypedDict, total=False):
    """What the record keeps of a member."""

    username: str
    first_name: str
    last_name: str
    role: str
    is_active: bool


def first_password(random: Chooser | None = None) -> str:
    """Draw a password that can be read out aloud: letters and figures that look unlike.

    Twelve of twenty characters make 52 bits, enough for a site that answers slowly.
    """
    chance = random or SystemRandom()
    groups = ("".join(chance.choice(TAG_ALPHABET) for _ in range(_GROUP)) for _ in range(_GROUPS))
    return "-".join(groups).lower()


@transaction.atomic
def add_member(
    values: Person | Mapping[str, Any], *, password: str, by: Member | None = None
) -> Member:
    """Add a member with ``values``: ``username``, names and ``role`` (else a volunteer).

    The first member of all is added by themselves. Refuse a name that is taken, whatever its
    case, and a password that is too easy.
    """
    member = Member(**values)
    member.username = member.username.strip()
    _refuse_taken(member)
    _set_password(member, password)
    return keep(member, by=by or member, why="member added")


@transaction.atomic
def change_member(member: Member, values: Person | Mapping[str, Any], *, by: Member) -> Member:
    """Change a member's names, role, or whether they may sign in.

    Refuse to leave the group without a steward who may sign in: nobody could let anyone in.
    """
    others = Member.objects.select_for_update().filter(role=Role.STEWARD, is_active=True)
    is_alone = not others.exclude(pk=member.pk).exists()
    now = Member.objects.get(pk=member.pk)
    role = values.get("role", now.role)
    stays = role == Role.STEWARD and values.get("is_active", now.is_active)
    if now.is_steward and is_alone and not stays:
        raise ValidationError(
            {
                "is_active" if role == Role.STEWARD else "role": f"{now} is the only steward. "
                "Make somebody else a steward first."
            }
        )
    return change(member, dict(values), by=by, why="member changed")


@transaction.atomic
def set_password(member: Member, password: str, *, by: Member) -> Member:
    """Give ``member`` another password; refuse one that is too easy."""
    _set_password(member, password)
    return keep(member, by=by, why="password changed", fields=["password"])


@transaction.atomic
def change_own_password(member: Member, *, old: str, new: str) -> Member:
    """Change one's own password; refuse without the right old one."""
    if not member.check_password(old):
        raise ValidationError({"old": "This is not your password as it is now."})
    return set_password(member, new, by=member)


def _set_password(member: Member, password: str) -> None:
    try:
        validate_password(password, member)
    except ValidationError as refusal:
        raise ValidationError({"password": refusal.messages}) from refusal
    member.set_password(password)


def _refuse_taken(member: Member) -> None:
    if Member.objects.filter(username__iexact=member.username).exists():
        raise ValidationError({"username": f"“{member.username}” is taken; choose another name."})
