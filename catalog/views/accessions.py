"""Accessions on the screen: what came, from whom, under which terms."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.filters.accessions import AccessionFilter
from catalog.forms.accessions import AccessionForm, StatedLinesForm
from catalog.http import MemberRequest
from catalog.models import Accession
from catalog.models.members import Role
from catalog.operations.accessions import (
    change_accession,
    close_accession,
    record_accession,
    reopen_accession,
)
from catalog.queries.accessions import reconcile
from catalog.queries.intake import MOST_ACCESSIONS, intake, intake_by_accession
from catalog.reckoning.edtf_dates import parse_date
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form
from catalog.views.pages import page_of


@require_safe
@members_only()
def accession_list(request: MemberRequest) -> HttpResponse:
    chosen = AccessionFilter(request.GET, Accession.objects.for_list())
    context = {"filter": chosen, "page": page_of(chosen.qs, request), "intake": intake()}
    return render(request, "catalog/accessions/list.html", context)


@require_safe
@members_only()
def accession_months(request: MemberRequest) -> HttpResponse:
    context = {"intake": intake(), "each": intake_by_accession(), "most": MOST_ACCESSIONS}
    return render(request, "catalog/accessions/months.html", context)


@require_safe
def accession_detail(request: MemberRequest, year: int, serial: int) -> HttpResponse:
    accession = fetch(Accession.objects.for_detail(), request, year=year, serial=serial)
    parts = accession.parts.for_list().in_numerical_order()
    context = {
        "accession": accession,
        "heading": accession.summary or "What came",
        "cells": _cells(accession),
        "photos": accession.photos.in_order(),
        "reconciliation": reconcile(accession),
        "page": page_of(parts, request),
        "form": StatedLinesForm(),
    }
    return render(request, "catalog/accessions/detail.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def accession_add(request: MemberRequest) -> HttpResponse:
    form = AccessionForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            return redirect(record_accession(form.values(), by=request.user))
    return show_form(request, form, FormPage("Add an accession", reverse("accession-list")))


@require_http_methods(["GET", "HEAD", "POST"])
def accession_change(request: MemberRequest, pk: int) -> HttpResponse:
    accession = fetch(Accession.objects.kept(), request, pk=pk)
    form = AccessionForm(request.POST if request.method == "POST" else None, instance=accession)
    if form.is_valid():
        with refusals_shown_in(form):
            return redirect(
                change_accession(accession, form.values(), by=request.user, seen=form.seen_version)
            )
    return show_form(
        request, form, FormPage(f"Change accession {accession}", accession.get_absolute_url())
    )


@require_POST
def accession_close(request: MemberRequest, pk: int) -> HttpResponse:
    accession = fetch(Accession.objects.kept(), request, Role.CURATOR, pk=pk)
    close_accession(accession, by=request.user)
    messages.success(request, f"Taking in {accession} is finished. It can be taken up again.")
    return redirect(accession)


@require_POST
def accession_reopen(request: MemberRequest, pk: int) -> HttpResponse:
    accession = fetch(Accession.objects.kept(), request, Role.CURATOR, pk=pk)
    reopen_accession(accession, by=request.user)
    messages.success(request, f"More can be taken in from {accession}.")
    return redirect(accession)


def _cells(accession: Accession) -> list[tuple[str, str]]:
    received = parse_date(accession.date_edtf).in_words() if accession.date_edtf else ""
    return [
        ("From", str(accession.party or "")),
        ("How it came", accession.get_method_display()),
        ("Received", received or accession.date_text),
        ("Title", accession.get_title_status_display()),
        ("Taking in", "still open" if accession.is_open else "finished"),
    ]
