"""Printed sheets on the screen: look first, print the next issue, find a former one."""

from dataclasses import replace
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.core.files.storage import default_storage
from django.db import models
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from catalog.forms.prints import EditionForm, IssueForm
from catalog.http import MemberRequest
from catalog.models import PrintedSheet
from catalog.operations.printed_sheets import Printed, issue_sheet
from catalog.printing.editions import Edition
from catalog.printing.papers import paper_named
from catalog.printing.records import ROWS, record_sheet
from catalog.printing.sheets import bound
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.pages import page_of
from catalog.views.papers import pdf_answer, record_address
from catalog.views.public import is_visitor


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def print_record(request: MemberRequest, kind: str, pk: int) -> HttpResponse:
    """Offer the next issue and the former ones; printing is one tap from here."""
    record = get_object_or_404(rows_of(kind), pk=pk)
    form = EditionForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            return redirect(_issued(request, kind, record, edition_of(request, record, form)))
    context = {
        "record": record,
        "kind": kind,
        "sheet_name": PrintedSheet.Kind(kind).label,
        "form": form,
        "issues": PrintedSheet.objects.of(kind, pk).for_list(),
    }
    return render(request, "catalog/prints/record.html", context)


@login_not_required
@require_safe
def print_sheet(request: HttpRequest, kind: str, pk: int) -> HttpResponse:
    """Show the sheet as it would be printed; visitors get that of a published record."""
    rows = rows_of(kind)
    only_public = is_visitor(request)
    if only_public:
        rows = rows.filter(is_published=True, withdrawn_at__isnull=True)
    record = get_object_or_404(rows, pk=pk)
    edition = Edition(
        address=record_address(request, record),
        paper=paper_named(request.GET.get("paper", "")),
        for_visitor=only_public or "public" in request.GET,
    )
    return pdf_answer(bound([record_sheet(record, edition)]), f"{kind}-{pk}")


@require_safe
def printed_sheet(request: MemberRequest, number: int) -> HttpResponse:
    """Send an issue again, as it was printed."""
    issue = fetch(PrintedSheet.objects.all(), request, number=number)
    with default_storage.open(issue.file.name) as file:
        return pdf_answer(file.read(), f"issue-{issue.number}")


@require_safe
@members_only()
def printed_sheet_list(request: MemberRequest) -> HttpResponse:
    form = IssueForm(request.GET if "number" in request.GET else None)
    if form.is_valid():
        number = form.cleaned_data["number"]
        if PrintedSheet.objects.filter(number=number).exists():
            return redirect("printed-sheet", number)
        form.add_error("number", f"No sheet was printed here as issue {number}.")
    context = {"form": form, "page": page_of(PrintedSheet.objects.for_list(), request)}
    return render(request, "catalog/prints/list.html", context)


def rows_of(kind: str) -> models.QuerySet[Any]:
    if kind not in ROWS:
        raise Http404(f"There is no sheet of a {kind}.")
    return ROWS[kind]


def edition_of(request: HttpRequest, record: models.Model, form: EditionForm) -> Edition:
    chosen = form.cleaned_data
    paper = paper_named(chosen["paper"])
    return Edition(record_address(request, record), paper, for_visitor=chosen["public"])


def _issued(
    request: MemberRequest, kind: str, record: models.Model, edition: Edition
) -> PrintedSheet:
    """Print the next issue of one record, and say under which number it is kept."""
    printed = Printed(kind, record.pk, str(record), edition.paper, edition.for_visitor)

    def make(number: int) -> bytes:
        return bound([record_sheet(record, replace(edition, issue=number))])

    issue = issue_sheet(printed, make, by=request.user)
    messages.success(request, f"Printed as {issue}. The paper can be found again by that number.")
    return issue
