"""What changed between two days, for members: all of it, of one kind, or by one of them."""

import datetime as dt

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalog.forms.changes import ChangesForm
from catalog.http import MemberRequest
from catalog.queries.changes import changes_address, changes_in
from catalog.queries.visits import stay_of
from catalog.views.fetch import members_only

USUALLY = dt.timedelta(days=7)


@require_safe
@members_only()
def changes(request: MemberRequest) -> HttpResponse:
    """Show what changed; an address without days leads to one with days, which can be sent."""
    if "since" not in request.GET:
        return redirect(changes_address(_usual_since(request), **request.GET.dict()))
    form = ChangesForm(request.GET)
    groups = changes_in(form.span, form.cleaned_data["kind"]) if form.is_valid() else ()
    context = {"form": form, "groups": groups, "is_one_kind": bool(request.GET.get("kind"))}
    return render(request, "catalog/shop/changes.html", context)


def _usual_since(request: MemberRequest) -> dt.datetime:
    stay = stay_of(request.user)
    return (stay.since if stay else None) or timezone.now() - USUALLY
