"""Citing sources behind statements, and the statements that still lack one."""

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.forms.sources import CitationForm
from catalog.http import MemberRequest
from catalog.models import Citation
from catalog.models.members import Role
from catalog.operations.citations import cite, remove_citation
from catalog.queries.citations import (
    CITED_KINDS,
    address_of,
    cited_statement,
    subject_of,
    unsourced,
    words_of_statement,
)
from catalog.views.fetch import fetch, fetch_any, members_only, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form
from catalog.views.pages import page_of


@require_http_methods(["GET", "HEAD", "POST"])
def citation_add(request: MemberRequest, kind: str, pk: int) -> HttpResponse:
    statement = fetch_any(kind, pk, request)
    if kind not in CITED_KINDS:
        raise Http404("No source is put behind this kind of record.")
    subject, address = subject_of(statement), address_of(statement)
    form = CitationForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            told: dict[str, Any] = {**form.cleaned_data, CITED_KINDS[kind]: statement}
            citation = cite(**told, by=request.user)
            messages.success(
                request, f"“{citation}” stands behind {words_of_statement(statement)}."
            )
            return redirect(address)
    about = "" if subject == statement else f"{subject}: "
    page = FormPage(
        heading="Cite a source",
        lead=f"It will stand behind this: {about}{words_of_statement(statement)}.",
        back=address,
        save="Cite",
    )
    return show_form(request, form, page)


@require_POST
def citation_remove(request: MemberRequest, pk: int) -> HttpResponse:
    citation = fetch(Citation.objects.select_related("source"), request, Role.CURATOR, pk=pk)
    address = address_of(cited_statement(citation))
    remove_citation(citation, by=request.user)
    messages.success(request, f"“{citation}” is no longer cited here.")
    return redirect(address)


@require_safe
@members_only()
def unsourced_list(request: MemberRequest) -> HttpResponse:
    by_kind = unsourced()
    chosen = request.GET.get("kind", "event")
    if chosen not in by_kind:
        raise Http404("No statements of this kind are listed here.")
    page = page_of(by_kind[chosen], request)
    context = {
        "kinds": [
            (rows.model._meta.verbose_name_plural, f"?kind={kind}", rows.count(), kind == chosen)
            for kind, rows in by_kind.items()
        ],
        "chosen": chosen,
        "page": page,
        "statements": [
            (row.pk, subject_of(row), address_of(row), words_of_statement(row))
            for row in page.object_list
        ],
    }
    return render(request, "catalog/sources/unsourced.html", context)
