"""Several parts at once: identified together or moved together."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from catalog.forms.parts import IdentifyForm
from catalog.forms.places import MovePartForm
from catalog.http import MemberRequest
from catalog.models import Part
from catalog.models.parts import PartQuerySet
from catalog.operations.identifications import identify_several
from catalog.operations.moves import move_parts
from catalog.queries.part_lists import part_rows
from catalog.views.fetch import members_only, refusals_shown_in
from catalog.views.undo import told_with_undo


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def part_together(request: MemberRequest) -> HttpResponse:
    """Show the parts that were chosen, and do with all of them what one of the forms says."""
    sent = request.POST if request.method == "POST" else request.GET
    parts = _chosen(sent.getlist("part"))
    act = sent.get("act", "")
    identify = IdentifyForm(request.POST if act == "identify" else None, prefix="identify")
    move = MovePartForm(request.POST if act == "move" else None, prefix="move")
    if act == "identify" and identify.is_valid():
        with refusals_shown_in(identify):
            identify_several(parts, by=request.user, **identify.cleaned_data)
            messages.success(request, f"{len(parts)} parts: {identify.cleaned_data['component']}.")
            return redirect("part-list")
    if act == "move" and move.is_valid():
        with refusals_shown_in(move):
            return _move(request, parts, move)
    rows = part_rows([part.pk for part in parts])
    context = {"rows": rows, "identify_form": identify, "move_form": move}
    return render(request, "catalog/parts/together.html", context)


def _chosen(keys: list[str]) -> PartQuerySet:
    chosen = [int(key) for key in keys if key.isdecimal() and len(key) < 19]
    return Part.objects.kept().filter(pk__in=chosen).in_numerical_order()


def _move(request: MemberRequest, parts: PartQuerySet, form: MovePartForm) -> HttpResponse:
    told = form.cleaned_data
    moves = move_parts(
        parts,
        location=form.location_meant,
        inside=told["inside"],
        note=told["note"],
        by=request.user,
    )
    values = [("move", move.pk) for move in moves]
    words = f"{len(moves)} of {len(parts)} parts moved; the others were there already."
    sentence = f"{len(moves)} parts moved." if len(moves) == len(parts) else words
    told_with_undo(request, sentence, reverse("move-undo"), values)
    return redirect("part-list")
