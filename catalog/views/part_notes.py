"""Marks on a part, written down one at a time beside it."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.parts import MarkForm
from catalog.http import MemberRequest
from catalog.models import Part, PartMark
from catalog.operations.marks import add_mark, change_mark, remove_mark
from catalog.reckoning.marks import NOTHING_LEGIBLE, says_nothing
from catalog.views.fetch import fetch, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form
from catalog.views.undo import told_with_undo


@require_http_methods(["GET", "HEAD", "POST"])
def part_mark_add(request: MemberRequest, pk: int) -> HttpResponse:
    part = fetch(Part.objects.kept(), request, pk=pk)
    form = MarkForm(request.POST if request.method == "POST" else None, prefix="mark")
    if form.is_valid():
        with refusals_shown_in(form):
            mark = add_mark(part, by=request.user, **form.values())
            tells = f" {NOTHING_LEGIBLE}" if says_nothing(mark.text) else ""
            messages.success(request, f"Mark “{mark}” is written down.{tells}")
            return redirect(part)
    return show_form(request, form, FormPage(f"A mark on {part}", part.get_absolute_url()))


@require_http_methods(["GET", "HEAD", "POST"])
def part_mark_change(request: MemberRequest, pk: int) -> HttpResponse:
    mark = fetch(PartMark.objects.select_related("part"), request, pk=pk)
    form = MarkForm(request.POST if request.method == "POST" else None, instance=mark)
    if form.is_valid():
        with refusals_shown_in(form):
            change_mark(mark, form.values(), by=request.user, seen=form.seen_version)
            return redirect(mark.part)
    page = FormPage(
        f"Mark on {mark.part}",
        mark.part.get_absolute_url(),
        remove_url=reverse("part-mark-remove", args=[mark.pk]),
        remove_words="Take the mark off",
    )
    return show_form(request, form, page)


@require_POST
def part_mark_remove(request: MemberRequest, pk: int) -> HttpResponse:
    mark = fetch(PartMark.objects.select_related("part"), request, pk=pk)
    part = mark.part
    read = {"text": mark.text, "manner": mark.manner, "place": mark.place, "meaning": mark.meaning}
    remove_mark(mark, by=request.user)
    again = [(f"mark-{name}", value) for name, value in read.items()]
    address = reverse("part-mark-add", args=[part.pk])
    told_with_undo(request, f"Mark “{read['text']}” is taken off.", address, again)
    return redirect(part)
