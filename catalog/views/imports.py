"""Reading a list of parts in, step by step; each step can be left and taken up again."""

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.exchange.part_columns import FIELDS, SHARED, columns_of
from catalog.exchange.part_lists import PartList, read_list
from catalog.exchange.part_previews import preview_of
from catalog.exchange.tables import Table, TableError, read_table
from catalog.forms.imports import ImportColumnsForm, ImportFileForm
from catalog.http import MemberRequest
from catalog.models import ImportBatch, Member
from catalog.operations.imports import choose_columns, import_parts, keep_list
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.form_pages import sent
from catalog.views.papers import csv_answer

_EARLIER = 10
_SHOWN = 200


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def part_import(request: MemberRequest) -> HttpResponse:
    form = ImportFileForm(*sent(request))
    if form.is_valid():
        with refusals_shown_in(form):
            return redirect(_kept(form, request.user))
    earlier = ImportBatch.objects.for_list()[:_EARLIER]
    return render(request, "catalog/imports/file.html", {"form": form, "earlier": earlier})


@require_http_methods(["GET", "HEAD", "POST"])
def part_import_columns(request: MemberRequest, pk: int) -> HttpResponse:
    batch = _batch(request, pk)
    table = _table(batch)
    form = ImportColumnsForm(
        request.POST if request.method == "POST" else None,
        columns=columns_of(table, batch.columns),
        meanings=FIELDS,
        shared=SHARED,
        unit=batch.unit,
    )
    if form.is_valid():
        unit = form.cleaned_data["unit"]
        choose_columns(batch, form.chosen, unit=unit, by=request.user)
        return redirect("part-import-preview", pk)
    context = {"batch": batch, "form": form, "table": table}
    return render(request, "catalog/imports/columns.html", context)


@require_safe
def part_import_preview(request: MemberRequest, pk: int) -> HttpResponse:
    batch = _batch(request, pk)
    if not batch.columns:
        return redirect("part-import-columns", pk)
    context = {"batch": batch, "preview": preview_of(_list(batch))}
    return render(request, "catalog/imports/preview.html", context)


@require_POST
def part_import_record(request: MemberRequest, pk: int) -> HttpResponse:
    batch = _batch(request, pk)
    try:
        outcome = import_parts(_list(batch).good_parts, batch=batch, by=request.user)
    except ValidationError as refusal:
        messages.error(request, " ".join(refusal.messages))
        return redirect("part-import-preview", pk)
    messages.success(request, f"{_parts(outcome.recorded)} recorded.")
    return redirect("part-import-result", pk)


@require_safe
def part_import_result(request: MemberRequest, pk: int) -> HttpResponse:
    batch = _batch(request, pk)
    if not batch.imported_at:
        return redirect("part-import-preview", pk)
    recorded = batch.rows.select_related("part__component", "part__location")
    context = {
        "batch": batch,
        "preview": preview_of(_list(batch)),
        "recorded": recorded[:_SHOWN],
        "count": recorded.count(),
    }
    return render(request, "catalog/imports/result.html", context)


@require_safe
def part_import_problems(request: MemberRequest, pk: int) -> HttpResponse:
    batch = _batch(request, pk)
    stem = batch.name.rpartition(".")[0] or batch.name
    return csv_answer(_list(batch).problem_file(), f"{stem} problems.csv")


def _kept(form: ImportFileForm, member: Member) -> ImportBatch:
    """Keep the list once it is known to be one."""
    file, accession = form.cleaned_data["file"], form.cleaned_data["accession"]
    data = file.read()
    try:
        read_table(file.name, data)
    except TableError as problem:
        raise ValidationError({"file": str(problem)}) from problem
    return keep_list(file.name, data, accession=accession, by=member)


def _batch(request: MemberRequest, pk: int) -> ImportBatch:
    rows = ImportBatch.objects.select_related("accession", "uploaded_by")
    return fetch(rows, request, pk=pk)


def _table(batch: ImportBatch) -> Table:
    with batch.file.open("rb") as file:
        return read_table(batch.name, file.read())


def _list(batch: ImportBatch) -> PartList:
    return read_list(
        _table(batch),
        batch.columns,
        accession=batch.accession,
        unit=batch.unit,
        refusals=batch.refusals,
    )


def _parts(count: int) -> str:
    return "1 part is" if count == 1 else f"{count} parts are"
