"""Stated lines on the screen: writing them down, mending them, settling how they differ."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.accessions import SettleForm, StatedLineForm, StatedLinesForm
from catalog.http import MemberRequest
from catalog.models import Accession, StatedLine
from catalog.models.members import Role
from catalog.operations.stated_lines import (
    add_stated_lines,
    change_stated_line,
    remove_stated_line,
    settle_line,
    unsettle_line,
)
from catalog.queries.accessions import reconcile
from catalog.views.fetch import fetch, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form

LINES = StatedLine.objects.select_related("accession", "component").filter(
    accession__withdrawn_at__isnull=True
)


@require_http_methods(["GET", "HEAD", "POST"])
def stated_line_add(request: MemberRequest, pk: int) -> HttpResponse:
    accession = fetch(Accession.objects.kept(), request, pk=pk)
    form = StatedLinesForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            add_stated_lines(accession, form.cleaned_data["lines"], by=request.user)
            return redirect(_beside_the_others(accession))
    heading = f"What was stated in accession {accession}"
    return show_form(request, form, FormPage(heading, _beside_the_others(accession)))


@require_http_methods(["GET", "HEAD", "POST"])
def stated_line_change(request: MemberRequest, pk: int) -> HttpResponse:
    line = fetch(LINES.all(), request, pk=pk)
    form = StatedLineForm(request.POST if request.method == "POST" else None, instance=line)
    if form.is_valid():
        with refusals_shown_in(form):
            change_stated_line(line, form.values(), by=request.user, seen=form.seen_version)
            return redirect(_beside_the_others(line.accession))
    page = FormPage(
        heading=f"Change a stated line of accession {line.accession}",
        back=_beside_the_others(line.accession),
        remove_url=_removal(request, line),
        remove_words="Take this line off",
    )
    return show_form(request, form, page)


@require_POST
def stated_line_remove(request: MemberRequest, pk: int) -> HttpResponse:
    line = fetch(LINES.all(), request, Role.CURATOR, pk=pk)
    remove_stated_line(line, by=request.user)
    messages.success(request, f"“{line}” was taken off; its words stay in the history.")
    return redirect(_beside_the_others(line.accession))


@require_http_methods(["GET", "HEAD", "POST"])
def stated_line_settle(request: MemberRequest, pk: int) -> HttpResponse:
    line = fetch(LINES.all(), request, Role.CURATOR, pk=pk)
    form = SettleForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            settle_line(line, form.cleaned_data["how"], by=request.user)
            messages.success(request, f"“{line}” is settled.")
            return redirect(_beside_the_others(line.accession))
    checks = {check.line.pk: check.words for check in reconcile(line.accession).lines}
    page = FormPage(
        heading=f"Settle a difference in accession {line.accession}",
        back=_beside_the_others(line.accession),
        lead=f"“{line}”: {checks[line.pk]}.",
        save="Settle",
    )
    return show_form(request, form, page)


@require_POST
def stated_line_unsettle(request: MemberRequest, pk: int) -> HttpResponse:
    line = fetch(LINES.all(), request, Role.CURATOR, pk=pk)
    unsettle_line(line, by=request.user)
    messages.success(request, f"“{line}” is open again.")
    return redirect(_beside_the_others(line.accession))


def _beside_the_others(accession: Accession) -> str:
    return f"{accession.get_absolute_url()}#stated"


def _removal(request: MemberRequest, line: StatedLine) -> str:
    return reverse("stated-line-remove", args=[line.pk]) if request.user.is_curator else ""
