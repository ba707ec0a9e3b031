"""Patents on the screen: list, record, and the reader of worn markings."""

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from catalog.filters.patents import PatentFilter
from catalog.forms.patents import MarkingForm, PatentForm
from catalog.http import MemberRequest
from catalog.models import Patent
from catalog.operations.patents import change_patent, record_patent
from catalog.queries.patents import figure_sheets, patent_facts, patents_agreeing
from catalog.queries.publication import visibility_of
from catalog.reckoning.patents import Marking, PatentError, read_marking
from catalog.views import public
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form
from catalog.views.pages import page_of

DAYS_SHOWN = 60


@login_not_required
@require_safe
def patent_list(request: HttpRequest) -> HttpResponse:
    """Show visitors the published patents, and members all of them."""
    if public.is_visitor(request):
        return public.public_patent_list(request)
    chosen = PatentFilter(request.GET, Patent.objects.for_list())
    context = {"filter": chosen, "page": page_of(chosen.qs, request)}
    return render(request, "catalog/patents/list.html", context)


@login_not_required
@require_safe
def patent_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """Show visitors what is published of the patent, and members its record."""
    if public.is_visitor(request):
        return public.public_patent(request, pk)
    rows = Patent.objects.select_related("assignee")
    patent = fetch(rows.prefetch_related("inventors", "citations__source"), request, pk=pk)
    context = {
        "patent": patent,
        "facts": patent_facts(patent),
        "figures": figure_sheets(patent),
        "visibility": visibility_of(patent),
        "cells": [
            ("Filed", patent.filed_on),
            ("Issued", patent.issued_on),
        ],
    }
    return render(request, "catalog/patents/detail.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def patent_add(request: MemberRequest) -> HttpResponse:
    sent = request.POST if request.method == "POST" else None
    form = PatentForm(sent, may_publish=request.user.is_curator)
    if form.is_valid():
        with refusals_shown_in(form):
            patent = record_patent(form.values(), by=request.user)
            messages.success(request, f"{patent} is recorded. Add its figures next.")
            return redirect(patent)
    return show_form(request, form, FormPage("Add a patent", reverse("patent-list")))


@require_http_methods(["GET", "HEAD", "POST"])
def patent_change(request: MemberRequest, pk: int) -> HttpResponse:
    patent = fetch(Patent.objects.kept(), request, pk=pk)
    sent = request.POST if request.method == "POST" else None
    form = PatentForm(sent, instance=patent, may_publish=request.user.is_curator)
    if form.is_valid():
        with refusals_shown_in(form):
            change_patent(patent, form.values(), by=request.user, seen=form.seen_version)
            return redirect(patent)
    return show_form(request, form, FormPage(f"Change {patent}", patent.get_absolute_url()))


@require_safe
@members_only()
def patent_reader(request: MemberRequest) -> HttpResponse:
    """Read a worn marking; its address can be sent to somebody."""
    form = MarkingForm(request.GET if "marking" in request.GET else None)
    context: dict[str, object] = {"form": form}
    if form.is_valid():
        try:
            context |= _reading(read_marking(form.cleaned_data["marking"]))
        except PatentError as problem:
            form.add_error("marking", str(problem))
    return render(request, "catalog/patents/reader.html", context)


def _reading(marking: Marking) -> dict[str, object]:
    usual = [one for one in marking.days if one.is_issue_day]
    days = [
        (one.day, (one.numbers.start, one.numbers.stop - 1) if one.numbers else None)
        for one in usual[:DAYS_SHOWN]
    ]
    agreeing, more = patents_agreeing(marking), len(usual) - len(days)
    return {"marking": marking, "days": days, "more_days": more, "agreeing": agreeing}
