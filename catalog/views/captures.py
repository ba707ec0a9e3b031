"""Taking pieces in by phone, one after the other."""

from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.captures import TakeInForm
from catalog.http import MemberRequest
from catalog.models import Part
from catalog.operations.captures import take_in, undo_capture
from catalog.queries.captures import measured_names
from catalog.queries.photos import same_elsewhere
from catalog.views.fetch import fetch, members_only, refusals_shown_in, refusals_told
from catalog.views.worker import queue_scripts

# What stays the same from one piece of a pallet to the next.
KEPT = ("accession", "location")


@require_http_methods(["GET", "HEAD", "POST"])
@gzip_page
@members_only()
def piece_take_in(request: MemberRequest) -> HttpResponse:
    form = _form(request)
    if form.is_valid():
        with refusals_shown_in(form):
            part = take_in(by=request.user, **form.values())
            _keep_for_the_next(request, form)
            return redirect(f"{reverse('take-in')}?saved={part.pk}")
    context = {
        "form": form,
        "kept": form.kept(),
        "saved": _saved(request),
        "measured_names": measured_names(),
        "scripts": queue_scripts(),
    }
    return render(request, "catalog/captures/take_in.html", context)


@require_POST
def capture_undo(request: MemberRequest, pk: int) -> HttpResponse:
    part = fetch(Part.objects.kept(), request, pk=pk)
    with refusals_told(request):
        label = part.label
        undo_capture(part, by=request.user)
        messages.success(request, f"{label} is withdrawn. Its number is not given again.")
    return redirect("take-in")


def _form(request: MemberRequest) -> TakeInForm:
    if request.method == "POST":
        return TakeInForm(request.POST, request.FILES)
    asked = {name: request.GET[name] for name in (*KEPT, "tag") if name in request.GET}
    return TakeInForm(initial={**request.session.get("kept_for_the_next", {}), **asked})


def _keep_for_the_next(request: MemberRequest, form: TakeInForm) -> None:
    chosen = {name: form.cleaned_data[name] for name in KEPT}
    request.session["kept_for_the_next"] = {
        name: record.pk for name, record in chosen.items() if record is not None
    }


def _saved(request: MemberRequest) -> dict[str, Any] | None:
    """Return the piece that was just taken in, and where its photos were seen before."""
    pk = request.GET.get("saved", "")
    if not pk.isdecimal():
        return None
    part = Part.objects.kept().filter(pk=pk, recorded_by=request.user).first()
    if part is None:
        return None
    photos = list(part.photos.in_order())
    return {"part": part, "photos": photos, "elsewhere": same_elsewhere(photos)}
