"""Where a vehicle or part came from: the whole story, and its single statements."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from catalog.forms.provenance import EventForm
from catalog.http import MemberRequest
from catalog.models import Part, ProvenanceEvent, Vehicle
from catalog.models.members import Role
from catalog.operations.provenance import change_event, record_event
from catalog.queries.provenance import provenance_of
from catalog.views.fetch import fetch, fetch_any, refusals_shown_in
from catalog.views.sheets import record_cells, record_sheets, record_titles

NAMED = ("from_party", "to_party", "keeper")


@require_safe
def provenance(request: MemberRequest, kind: str, pk: int) -> HttpResponse:
    record = _with_story(request, kind, pk)
    number, name = record_titles(record)
    context = {
        "record": record,
        "kind": kind,
        "number": number,
        "name": name,
        "cells": record_cells(record),
        "sheets": record_sheets(record, "Provenance"),
        "provenance": provenance_of(record),
    }
    return render(request, "catalog/provenance/story.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def event_add(request: MemberRequest, kind: str, pk: int) -> HttpResponse:
    record = _with_story(request, kind, pk, Role.CURATOR)
    form = EventForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        told, owner = form.values(), {kind: record}
        with refusals_shown_in(form):
            event = record_event(**owner, values=told, cited=form.cited, by=request.user)  # type: ignore[arg-type]
            messages.success(request, f"Recorded: {event}.")
            following = "event-add" if "next" in request.POST else "provenance"
            return redirect(following, kind, pk)
    return render(
        request, "catalog/provenance/form.html", {"form": form, "record": record, "kind": kind}
    )


@require_http_methods(["GET", "HEAD", "POST"])
def event_change(request: MemberRequest, pk: int) -> HttpResponse:
    rows = ProvenanceEvent.objects.kept().select_related("vehicle", "part", *NAMED)
    event = fetch(rows, request, Role.CURATOR, pk=pk)
    record, kind = (event.vehicle, "vehicle") if event.vehicle else (event.part, "part")
    form = EventForm(request.POST if request.method == "POST" else None, instance=event)
    if form.is_valid():
        told, seen = form.values(), form.seen_version
        with refusals_shown_in(form):
            change_event(event, told, by=request.user, seen=seen, cited=form.cited)
            return redirect("provenance", kind, record.pk)  # type: ignore[union-attr]
    return render(
        request, "catalog/provenance/form.html", {"form": form, "record": record, "kind": kind}
    )


def _with_story(
    request: MemberRequest, kind: str, pk: int, role: Role = Role.VOLUNTEER
) -> Vehicle | Part:
    record = fetch_any(kind, pk, request, role)
    if not isinstance(record, Vehicle | Part):
        raise Http404("Only vehicles and parts have a provenance.")
    return record
