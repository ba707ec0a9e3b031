"""Parts on the screen: the list, the record, changing and splitting."""

from urllib.parse import urlencode

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from catalog.filters.part_chips import chip_groups, taken_back
from catalog.filters.parts import PartFilter
from catalog.forms.part_record import identify_form, mark_form, measurement_form, split_form
from catalog.forms.parts import PartForm, SplitForm
from catalog.http import MemberRequest
from catalog.models import Part
from catalog.operations.lots import split_part
from catalog.operations.parts import change_part
from catalog.queries.ages import age_of
from catalog.queries.marks_read import marks_read
from catalog.queries.part_lists import part_page
from catalog.queries.part_records import part_record, parts_to_show
from catalog.queries.patents import likenesses_of
from catalog.queries.publication import visibility_of
from catalog.queries.search import exactly
from catalog.views import public
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form
from catalog.views.sheets import part_cells, part_sheets


@login_not_required
@require_safe
def part_list(request: HttpRequest) -> HttpResponse:
    """Show visitors the published parts, and members all of them."""
    if public.is_visitor(request):
        return public.public_part_list(request)
    chosen = PartFilter(request.GET)
    words = chosen.indexed_words
    is_narrowed = bool(chosen.chosen.keys() - {"words"})
    number = _page_number(request)
    page = part_page(chosen.qs, words=words, is_narrowed=is_narrowed, number=number)
    context = {
        "page": page,
        "words": chosen.chosen.get("words", ""),
        "is_narrowed": chosen.is_bound,
        "groups": chip_groups(chosen, page.by_choice),
        "taken_back": taken_back(chosen),
        "kept": [(name, value) for name, value in chosen.data.items() if name != "words"],
    }
    return render(request, "catalog/parts/list.html", context)


@require_safe
@members_only()
def part_narrow(request: MemberRequest) -> HttpResponse:
    """Offer every choice of the list at once; the list itself carries the quick ones only."""
    context = {"filter": PartFilter(request.GET, is_whole_form=True)}
    return render(request, "catalog/parts/narrow.html", context)


def _page_number(request: HttpRequest) -> int:
    """Return the page that the address asks for, or the first."""
    asked = request.GET.get("page", "")
    return max(1, int(asked)) if asked.isdecimal() and len(asked) < 8 else 1


@login_not_required
@require_safe
def part_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """Show visitors what is published of the part, and members its record."""
    if public.is_visitor(request):
        return public.public_part(request, pk)
    part = fetch(parts_to_show(), request, pk=pk)
    record = part_record(part)
    context = {
        "part": part,
        "record": record,
        "photos": record.photos,
        "cells": part_cells(part, record),
        "sheets": part_sheets(part, "Record"),
        "age": age_of(part),
        "marks_read": marks_read(part),
        "likenesses": likenesses_of(part),
        "visibility": visibility_of(part, photos=record.photos),
        "identify_form": identify_form(),
        "mark_form": mark_form(),
        "measurement_form": measurement_form(part),
        "split_form": split_form(part.usability),
    }
    return render(request, "catalog/parts/detail.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def part_change(request: MemberRequest, pk: int) -> HttpResponse:
    part = fetch(Part.objects.kept(), request, pk=pk)
    sent = request.POST if request.method == "POST" else None
    form = PartForm(sent, instance=part, may_publish=request.user.is_curator)
    if form.is_valid():
        with refusals_shown_in(form):
            change_part(part, form.values(), by=request.user, seen=form.seen_version)
            return redirect(part)
    return show_form(request, form, FormPage(f"Change {part}", part.get_absolute_url()))


@require_http_methods(["GET", "HEAD", "POST"])
def part_split(request: MemberRequest, pk: int) -> HttpResponse:
    lot = fetch(Part.objects.kept(), request, pk=pk)
    form = SplitForm(request.POST if request.method == "POST" else None, prefix="split")
    if form.is_valid():
        with refusals_shown_in(form):
            piece = split_part(lot, by=request.user, **form.values())
            messages.success(request, f"{piece.quantity} split off {lot} as {piece}.")
            return redirect(piece)
    page = FormPage(f"Split {lot}", lot.get_absolute_url(), save="Split off")
    return show_form(request, form, page)


@login_not_required
@require_safe
def part_numbered(request: HttpRequest, number: str) -> HttpResponse:
    """Lead from a number as somebody wrote or printed it to its part."""
    found = exactly(number)
    if found is None:
        return redirect(f"{reverse('search')}?{urlencode({'words': number})}")
    return redirect(found)
