"""Several parts at once: identified together or moved together."""

from collections.abc import Sequence

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.parts import IdentifyForm
from catalog.forms.places import MovePartForm
from catalog.http import MemberRequest
from catalog.models import Identification, Part
from catalog.models.parts import PartQuerySet
from catalog.operations.identifications import identify_several, take_back_several
from catalog.operations.moves import move_parts
from catalog.queries.part_lists import part_rows
from catalog.reckoning.plurals import counted
from catalog.views.fetch import key_of, members_only, refusals_shown_in, refusals_told
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
    if act == "identify" and parts and identify.is_valid():
        with refusals_shown_in(identify):
            said = identify_several(parts, by=request.user, **identify.cleaned_data)
            return _tell(request, said)
    if act == "move" and move.is_valid():
        with refusals_shown_in(move):
            return _move(request, parts, move)
    rows = part_rows([part.pk for part in parts])
    context = {"rows": rows, "identify_form": identify, "move_form": move}
    return render(request, "catalog/parts/together.html", context)


@require_POST
@members_only()
def identifications_take_back(request: MemberRequest) -> HttpResponse:
    """Take back what was said of several parts at once."""
    keys = [key for one in request.POST.getlist("said") if (key := key_of(one))]
    said = Identification.objects.standing().filter(pk__in=keys).select_related("part")
    with refusals_told(request):
        count = len(take_back_several(said, by=request.user))
        messages.success(request, f"Taken back of {counted(count, 'part')}.")
    return redirect("part-list")


def _tell(request: MemberRequest, said: Sequence[Identification]) -> HttpResponse:
    """Say what was said of how many parts and pieces, with a way back."""
    parts, pieces = len(said), sum(one.part.quantity for one in said)
    of = f" ({counted(pieces, 'piece')})" if pieces != parts else ""
    words = f"You say of {counted(parts, 'part')}{of}: {said[0]}. A second person has to look too."
    again = [("said", one.pk) for one in said]
    told_with_undo(request, words, reverse("identifications-take-back"), again)
    return redirect("part-list")


def _chosen(keys: list[str]) -> PartQuerySet:
    chosen = [key for one in keys if (key := key_of(one))]
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
