"""What a part may be, on the screen: ranked with reasons, and what to measure to settle it."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.forms.fits import ReadingForm
from catalog.http import MemberRequest
from catalog.models import Part
from catalog.operations.identifications import propose_identification
from catalog.operations.measurements import record_measurement
from catalog.queries.identity import what_it_may_be
from catalog.queries.identity_answers import WhatItMayBe
from catalog.queries.look_alikes import look_alikes
from catalog.queries.unlocking import unidentified_by_worth
from catalog.views.fetch import fetch, members_only, refusals_shown_in, refusals_told
from catalog.views.fits import bench_cells
from catalog.views.measurements import tell_reading
from catalog.views.pages import page_of
from catalog.views.sheets import part_sheets

# An address names no more features than this that somebody looked for and did not find.
LOOKED_FOR = 20


@require_http_methods(["GET", "HEAD", "POST"])
def part_identity(request: MemberRequest, pk: int) -> HttpResponse:
    part = fetch(Part.objects.for_detail(), request, pk=pk)
    without = request.GET.getlist("without")[:LOOKED_FOR]
    form = ReadingForm(request.POST) if request.method == "POST" else None
    if form and form.is_valid():
        with refusals_shown_in(form):
            reading = record_measurement(part, **form.values(), by=request.user)
            tell_reading(request, reading, now=what_it_may_be(part).sentence, page="what")
            return redirect(request.get_full_path())
    found = what_it_may_be(part, without=without)
    context = {
        "part": part,
        "found": found,
        "asked": _with_forms(found, form),
        "refused": form,
        "without": found.known.absent,
        "alike": look_alikes(part, found.known.readings),
        "cells": bench_cells(part),
        "sheets": part_sheets(part, "What it may be"),
    }
    return render(request, "catalog/identity/part.html", context)


@require_safe
def part_identity_brief(request: MemberRequest, pk: int) -> HttpResponse:
    """Say in a line or two what a part may be, for its record, which does not wait for it."""
    part = fetch(Part.objects.kept().for_detail(), request, pk=pk)
    return render(request, "catalog/identity/_brief.html", {"may_be": what_it_may_be(part)})


def _with_forms(found: WhatItMayBe, sent: ReadingForm | None) -> list[tuple[object, ReadingForm]]:
    """Return each suggested measurement with the form that takes it; what was sent is kept."""
    name = sent["name"].value() if sent else None
    return [
        (
            one,
            sent
            if sent and one.name == name
            else ReadingForm(
                auto_id=f"id_{number}_%s",
                initial={"name": one.name, "instrument": one.instrument},
            ),
        )
        for number, one in enumerate(found.next)
    ]


@require_POST
def part_identity_propose(request: MemberRequest, pk: int) -> HttpResponse:
    """Propose one of the candidates, with the reasons that the reckoning gives for it."""
    part = fetch(Part.objects.kept(), request, pk=pk)
    without = request.POST.getlist("without")[:LOOKED_FOR]
    found = what_it_may_be(part, without=without)
    one = found.candidate(request.POST.get("candidate", ""))
    if one is None or one.component is None:
        raise Http404("There is no such candidate any more.")
    with refusals_told(request):
        propose_identification(
            part,
            component=one.component,
            vehicle_class=one.vehicle_class,
            confidence=one.confidence,
            basis=one.basis,
            reasons=one.in_words,
            by=request.user,
        )
        words = f"You propose that {part} is a {one.name}. A second person has to look too."
        messages.success(request, words)
    return redirect("part-detail", pk=pk)


@require_safe
@members_only()
def part_unidentified(request: MemberRequest) -> HttpResponse:
    """List the parts nobody has named, those first that could finish a vehicle."""
    found = unidentified_by_worth()
    page = page_of(found.rows, request)
    rows = [(part, found.why.get(part.pk, "")) for part in page]
    context = {"page": page, "rows": rows}
    return render(request, "catalog/identity/unidentified.html", context)
