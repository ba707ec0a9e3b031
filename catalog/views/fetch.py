"""Fetching with permission: a view asks for a record and says who may have it."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import wraps
from typing import Any, ParamSpec, TypeVar, cast

from django.contrib import messages
from django.core.exceptions import PermissionDenied, ValidationError
from django.db import models
from django.forms import BaseForm
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.template.loader import render_to_string

from catalog.models import Member
from catalog.models.members import Role
from catalog.queries.records import KINDS

Row = TypeVar("Row", bound=models.Model)
P = ParamSpec("P")
# What fits into the columns of every database.
MOST_DIGITS = 18


def fetch(
    rows: models.QuerySet[Row], request: HttpRequest, role: Role = Role.VOLUNTEER, **which: Any
) -> Row:
    """Return the one row, refusing members below ``role`` before looking."""
    require(request, role)
    return get_object_or_404(rows, **which)


def fetch_any(
    kind: str, pk: int, request: HttpRequest, role: Role = Role.VOLUNTEER
) -> models.Model:
    """Return the record of whatever kind the address names."""
    require(request, role)
    if kind not in KINDS:
        raise Http404(f"There is no kind of record called {kind}.")
    return get_object_or_404(KINDS[kind], pk=pk)


def key_of(text: object) -> int | None:
    """Return the key that an address or a form names; no record has one of more digits."""
    words = str(text)
    return int(words) if words.isdecimal() and len(words) <= MOST_DIGITS else None


def require(request: HttpRequest, role: Role = Role.VOLUNTEER) -> Member:
    """Return the signed-in member, or refuse in words that say who may."""
    member = request.user
    if not isinstance(member, Member) or not member.may(role):
        raise PermissionDenied(f"This is for a {Role(role).label} of the group.")
    return member


def members_only(
    role: Role = Role.VOLUNTEER,
) -> Callable[[Callable[P, HttpResponse]], Callable[P, HttpResponse]]:
    """Let a view be seen by members of at least ``role`` only."""

    def decorate(view: Callable[P, HttpResponse]) -> Callable[P, HttpResponse]:
        @wraps(view)
        def guarded(*args: P.args, **kwargs: P.kwargs) -> HttpResponse:
            require(cast(HttpRequest, args[0]), role)
            return view(*args, **kwargs)

        return guarded

    return decorate


@contextmanager
def refusals_shown_in(form: BaseForm) -> Iterator[None]:
    """Show what an operation refuses beside the fields of ``form``, keeping what was typed."""
    try:
        yield
    except ValidationError as refusal:
        by_field = getattr(refusal, "error_dict", {"": refusal})
        for name, messages in by_field.items():
            form.add_error(name if name in form.fields else None, messages)


@contextmanager
def refusals_told(request: HttpRequest, *, offer: tuple[str, str] | None = None) -> Iterator[None]:
    """Tell what an operation refuses as a message on the next page, where there is no form.

    What ends with a colon leads a list of reasons, below which ``offer``, words and an address,
    says what to do about them.
    """
    try:
        yield
    except ValidationError as refusal:
        messages.error(request, _told(refusal.messages, offer))


def _told(refused: list[str], offer: tuple[str, str] | None) -> str:
    lead, *reasons = refused
    if not lead.endswith(":"):
        return " ".join(refused)
    context = {"lead": lead, "reasons": reasons, "offer": offer}
    return render_to_string("components/refusal.html", context)
