"""Sources on the screen: the documents behind statements, and their files, for members only."""

from typing import Any

from django.contrib import messages
from django.core.files.storage import default_storage
from django.http import FileResponse, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.filters.sources import SourceFilter
from catalog.forms.sources import SourceFileForm, SourceForm
from catalog.http import MemberRequest
from catalog.models import Source, SourceFile
from catalog.models.members import Role
from catalog.operations.sources import (
    add_source_file,
    change_source,
    record_source,
    remove_source_file,
)
from catalog.queries.citations import statements_citing
from catalog.queries.publication import visibility_of
from catalog.reckoning.edtf_dates import parse_date
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.form_pages import FormPage, sent, show_form
from catalog.views.pages import page_of


@require_safe
@members_only()
def source_list(request: MemberRequest) -> HttpResponse:
    chosen = SourceFilter(request.GET, Source.objects.for_list())
    context = {"filter": chosen, "page": page_of(chosen.qs, request)}
    return render(request, "catalog/sources/list.html", context)


@require_safe
def source_detail(request: MemberRequest, pk: int) -> HttpResponse:
    source = fetch(Source.objects.for_detail(), request, pk=pk)
    context = {
        "source": source,
        "cells": _cells(source),
        "files": source.files.all(),
        "photos": source.photos.in_order(),
        "statements": statements_citing(source),
        "visibility": visibility_of(source),
        "form": SourceFileForm(),
    }
    return render(request, "catalog/sources/detail.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def source_add(request: MemberRequest) -> HttpResponse:
    form = _form(request)
    if form.is_valid():
        with refusals_shown_in(form):
            return redirect(record_source(form.values(), by=request.user))
    return show_form(request, form, FormPage("Add a source", reverse("source-list")))


@require_http_methods(["GET", "HEAD", "POST"])
def source_change(request: MemberRequest, pk: int) -> HttpResponse:
    source = fetch(Source.objects.kept(), request, pk=pk)
    form = _form(request, instance=source)
    if form.is_valid():
        with refusals_shown_in(form):
            change_source(source, form.values(), by=request.user, seen=form.seen_version)
            return redirect(source)
    return show_form(request, form, FormPage(f"Change {source}", source.get_absolute_url()))


@require_http_methods(["GET", "HEAD", "POST"])
def source_file_add(request: MemberRequest, pk: int) -> HttpResponse:
    source = fetch(Source.objects.kept(), request, pk=pk)
    form = SourceFileForm(*sent(request))
    if form.is_valid():
        with refusals_shown_in(form):
            kept = add_source_file(source, form.cleaned_data["file"], by=request.user)
            messages.success(request, f"“{kept}” is kept with the source.")
            return redirect(source)
    page = FormPage(f"Add a file to {source}", source.get_absolute_url(), save="Keep this file")
    return show_form(request, form, page)


@require_safe
def source_file(request: MemberRequest, pk: int) -> FileResponse:
    """Hand the file out to be kept, never shown: nobody knows what is in it."""
    file = fetch(SourceFile.objects.all(), request, pk=pk)
    return FileResponse(
        default_storage.open(file.file.name),
        as_attachment=True,
        filename=file.name,
        content_type="application/octet-stream",
    )


@require_POST
def source_file_remove(request: MemberRequest, pk: int) -> HttpResponse:
    file = fetch(SourceFile.objects.select_related("source"), request, Role.CURATOR, pk=pk)
    remove_source_file(file, by=request.user)
    messages.success(request, f"“{file}” was taken off the source.")
    return redirect(file.source)


def _form(request: MemberRequest, **options: Any) -> SourceForm:
    typed = request.POST if request.method == "POST" else None
    return SourceForm(typed, may_publish=request.user.is_curator, **options)


def _cells(source: Source) -> list[tuple[str, str]]:
    date = parse_date(source.date_edtf).in_words() if source.date_edtf else source.date_text
    return [
        ("Date", date),
        ("Made by", source.creator),
        ("Reference", source.reference_number),
        ("Who has the original", str(source.holder or "")),
    ]
