"""Publishing a record and taking it back, from the record's own page."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from catalog.http import MemberRequest
from catalog.models.members import Role
from catalog.operations.publication import publish, unpublish
from catalog.queries.publication import PUBLISHABLE
from catalog.views.fetch import fetch_any, refusals_told


@require_POST
def record_publish(request: MemberRequest, kind: str, pk: int) -> HttpResponse:
    record = fetch_any(kind, pk, request, Role.CURATOR)
    if not isinstance(record, PUBLISHABLE):
        raise Http404(f"Visitors never see a {kind} by itself.")
    is_shown = request.POST.get("shown") == "1"
    with refusals_told(request):
        (publish if is_shown else unpublish)(record, by=request.user)
        told = "Visitors see it now." if is_shown else "Visitors no longer see it."
        messages.success(request, told)
    return redirect(record)
