"""What every record can do: show its history, be put back, be withdrawn, be brought back."""

from django.contrib import messages
from django.db.models import Model
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.forms.base import ReasonForm
from catalog.http import MemberRequest
from catalog.models import Trial
from catalog.models.members import Role
from catalog.models.withdrawals import Withdrawable
from catalog.operations.record import bring_back, restore_version, withdraw
from catalog.queries.history import history_of
from catalog.queries.trials import what_stays
from catalog.views.fetch import fetch_any, refusals_shown_in, refusals_told


@require_safe
def record_history(request: MemberRequest, kind: str, pk: int) -> HttpResponse:
    record = fetch_any(kind, pk, request)
    context = {"record": record, "kind": kind, "entries": history_of(record)}
    return render(request, "catalog/records/history.html", context)


@require_POST
def record_restore(request: MemberRequest, kind: str, pk: int, version: int) -> HttpResponse:
    record = fetch_any(kind, pk, request, Role.CURATOR)
    form = ReasonForm()
    with refusals_shown_in(form):
        restore_version(record, version, by=request.user)
        messages.success(
            request, f"Put back. {left_alone(record)}The way here stays in the history."
        )
    for problem in form.errors.get("__all__", []):
        messages.error(request, str(problem))
    return redirect("record-history", kind, pk)


def left_alone(record: Model) -> str:
    """Say what putting back does not touch, because it follows from other records."""
    names = [*getattr(record, "KEPT_ELSEWHERE", ()), *(f.name for f in record._meta.many_to_many)]
    if not names:
        return ""
    words = [str(record._meta.get_field(name).verbose_name) for name in names]  # type: ignore[union-attr]
    return f"Left as it is now: {', '.join(words)}. "


@require_http_methods(["GET", "HEAD", "POST"])
def record_withdraw(request: MemberRequest, kind: str, pk: int) -> HttpResponse:
    record = _withdrawable(request, kind, pk)
    form = ReasonForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            withdraw(record, by=request.user, reason=form.cleaned_data["reason"])
            if isinstance(record, Trial) and (stays := what_stays(record)):
                messages.success(request, stays)
            return redirect("record-history", kind, pk)
    context = {"record": record, "kind": kind, "form": form}
    return render(request, "catalog/records/withdraw.html", context)


@require_POST
def record_bring_back(request: MemberRequest, kind: str, pk: int) -> HttpResponse:
    record = _withdrawable(request, kind, pk)
    with refusals_told(request):
        bring_back(record, by=request.user)
        messages.success(request, "Brought back.")
    return redirect("record-history", kind, pk)


def _withdrawable(request: MemberRequest, kind: str, pk: int) -> Withdrawable:
    record = fetch_any(kind, pk, request, Role.CURATOR)
    if not isinstance(record, Withdrawable):
        raise Http404("This kind of record is not withdrawn.")
    return record
