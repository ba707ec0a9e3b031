"""The bench queue on the screen: the list, one part at a time, and every step's way back."""

from collections.abc import Mapping
from typing import Any
from urllib.parse import urlencode

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.forms.bench import BenchForm, SamePieceForm, StepForm
from catalog.http import MemberRequest
from catalog.models import Accession, Part, Role
from catalog.operations.bench import (
    Step,
    doubt_again,
    same_piece,
    see_apart,
    undo_step,
    work_on,
)
from catalog.operations.record import bring_back
from catalog.queries.bench import (
    REASONS,
    bench_counts,
    bench_queue,
    neighbors_of,
    reasons_of,
    twins_of,
    with_reasons,
)
from catalog.queries.photos import main_photos
from catalog.views.fetch import fetch, key_of, members_only, refusals_shown_in, refusals_told
from catalog.views.pages import page_of
from catalog.views.undo import told_with_undo


@require_safe
@members_only(Role.CURATOR)
def bench(request: MemberRequest) -> HttpResponse:
    chosen = _chosen(request)
    page = page_of(with_reasons(bench_queue(**chosen)), request)
    photos = main_photos("part", [part.pk for part in page])
    accession = chosen["accession"]
    context = {
        "page": page,
        "rows": [(part, photos.get(part.pk), reasons_of(part)) for part in page],
        "chips": _chips(chosen),
        "chosen": _query(chosen),
        "accession": accession and Accession.objects.filter(pk=accession).first(),
        "without_accession": _query({**chosen, "accession": None}),
    }
    return render(request, "catalog/bench/list.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def bench_part(request: MemberRequest, pk: int) -> HttpResponse:
    part = _part(request, pk)
    form = BenchForm(request.POST if request.method == "POST" else None, part)
    if form.is_valid():
        with refusals_shown_in(form):
            seen = form.cleaned_data["seen"]
            step = work_on(part, by=request.user, seen=seen, **form.values())
            _tell_step(request, part, step)
            return _go_on(request, part)
    return _page(request, part, form=form)


@require_POST
def bench_same(request: MemberRequest, pk: int) -> HttpResponse:
    part = _part(request, pk)
    form = SamePieceForm(request.POST)
    if form.is_valid():
        with refusals_shown_in(form):
            same_piece(part, form.cleaned_data["other"], by=request.user)
            told = f"{part} is withdrawn: {part.withdrawn_reason}."
            told_with_undo(request, told, _address(request, "bench-undo", part, "same"))
            return _go_on(request, part)
    return _page(request, part, same_form=form)


@require_POST
def bench_apart(request: MemberRequest, pk: int) -> HttpResponse:
    part = _part(request, pk)
    see_apart(part, by=request.user)
    told = f"{part} is a piece of its own."
    told_with_undo(request, told, _address(request, "bench-undo", part, "apart"))
    return _go_on(request, part)


@require_POST
def bench_undo(request: MemberRequest, pk: int, what: str) -> HttpResponse:
    part = fetch(Part.objects.for_detail(), request, Role.CURATOR, pk=pk)
    with refusals_told(request):
        if what == "same":
            bring_back(part, by=request.user)
        elif what == "apart":
            doubt_again(part, by=request.user)
        else:
            undo_step(part, _step(request), by=request.user)
        messages.success(request, f"Taken back. {part} is as it was.")
    return redirect(_address(request, "bench-part", part))


def _step(request: MemberRequest) -> Step:
    form = StepForm(request.POST)
    if not form.is_valid():
        raise ValidationError("It is not known which step was meant; look at the history.")
    return form.step()


def _part(request: MemberRequest, pk: int) -> Part:
    return fetch(with_reasons(Part.objects.kept()), request, Role.CURATOR, pk=pk)


def _page(request: MemberRequest, part: Part, **forms: Any) -> HttpResponse:
    chosen = _chosen(request)
    context = {
        "part": part,
        "reasons": reasons_of(part),
        "twins": twins_of(part) if part.is_doubtful else [],  # type: ignore[attr-defined]
        "photos": list(part.photos.in_order()),
        "neighbors": neighbors_of(part, **chosen),
        "chosen": _query(chosen),
        "form": BenchForm(None, part),
        "same_form": SamePieceForm(),
        **forms,
    }
    return render(request, "catalog/bench/part.html", context)


def _go_on(request: MemberRequest, part: Part) -> HttpResponse:
    """Open the next part of the queue, or the list behind the last one."""
    chosen = _chosen(request)
    near = neighbors_of(part, **chosen)
    if near.following is not None:
        return redirect(f"{reverse('bench-part', args=[near.following])}{_query(chosen)}")
    left = f"{near.count} still wait here." if near.count else "Nothing waits here any more."
    messages.success(request, f"That was the last one. {left}")
    return redirect(f"{reverse('bench')}{_query(chosen)}")


def _tell_step(request: MemberRequest, part: Part, step: Step) -> None:
    if step.is_idle:
        return
    names = ("before", "after", "move", "said", "former")
    values = [(name, getattr(step, name) or "") for name in names]
    told_with_undo(
        request, f"{part} is saved.", _address(request, "bench-undo", part, "step"), values
    )


def _address(request: MemberRequest, name: str, part: Part, *more: str) -> str:
    return f"{reverse(name, args=[part.pk, *more])}{_query(_chosen(request))}"


def _chosen(request: MemberRequest) -> dict[str, Any]:
    show = request.GET.get("show", "")
    return {
        "show": show if show in REASONS else "",
        "accession": key_of(request.GET.get("accession", "")),
    }


def _query(chosen: Mapping[str, Any]) -> str:
    kept = {name: value for name, value in chosen.items() if value}
    return f"?{urlencode(kept)}" if kept else ""


def _chips(chosen: Mapping[str, Any]) -> list[dict[str, Any]]:
    counts = bench_counts(chosen["accession"])
    return [
        {
            "words": words,
            "url": f"{reverse('bench')}{_query({**chosen, 'show': show})}",
            "count": counts[show or "all"],
            "on": chosen["show"] == show,
        }
        for show, words in {"": "all that waits", **REASONS}.items()
    ]
