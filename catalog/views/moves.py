"""Moving parts on the screen: one from its own page, or many by scanning."""

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.places import MoveManyForm, MovePartForm
from catalog.http import MemberRequest
from catalog.models import Move, Part
from catalog.operations.moves import move_back, move_part, move_parts
from catalog.queries.places import find_parts
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form
from catalog.views.undo import told_with_undo


@require_http_methods(["GET", "HEAD", "POST"])
def part_move(request: MemberRequest, pk: int) -> HttpResponse:
    part = fetch(Part.objects.for_detail().kept(), request, pk=pk)
    form = MovePartForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        told = form.cleaned_data
        with refusals_shown_in(form):
            move = move_part(
                part,
                location=form.location_meant,
                inside=told["inside"],
                note=told["note"],
                by=request.user,
            )
            _tell(request, [move], 1)
            return redirect(part)
    page = FormPage(f"Move {part}", part.get_absolute_url(), lead=_where(part), save="Move")
    return show_form(request, form, page)


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def move_many(request: MemberRequest) -> HttpResponse:
    """Move what is known at once; what is not stays in the field, with a sentence."""
    at = {"location": request.GET.get("to")}
    form = MoveManyForm(request.POST if request.method == "POST" else None, initial=at)
    if form.is_valid():
        parts, unknown = find_parts(form.cleaned_data["pieces"])
        location = form.location_meant
        with refusals_shown_in(form):
            moves = move_parts(
                parts, location=location, note=form.cleaned_data["note"], by=request.user
            )
            if parts:
                _tell(request, moves, len(parts))
            if location is not None and not unknown:
                return redirect(location)
            form = _left_over(form, unknown)
    return render(request, "catalog/places/move.html", {"form": form})


@require_POST
@members_only()
def move_undo(request: MemberRequest) -> HttpResponse:
    keys = [key for key in request.POST.getlist("move") if key.isdigit()]
    moves = list(Move.objects.filter(pk__in=keys).select_related("part"))
    try:
        back = move_back(moves, by=request.user)
    except ValidationError as refusal:
        messages.error(request, " ".join(refusal.messages))
        return redirect("move")
    if len(back) == 1:
        messages.success(request, f"{back[0].part} is back where it was.")
        return redirect(back[0].part)
    messages.success(request, f"{len(back)} parts are back where they were.")
    return redirect("move")


def _tell(request: MemberRequest, moves: list[Move], asked: int) -> None:
    if not moves:
        messages.success(request, "Nothing was moved: all of it is there already.")
        return
    to = moves[0].to_location or moves[0].to_inside
    what = f"{moves[0].part} is" if len(moves) == 1 else f"{len(moves)} parts are"
    there = asked - len(moves)
    already = f" {there} {'was' if there == 1 else 'were'} there already." if there else ""
    values = [("move", move.pk) for move in moves]
    told_with_undo(request, f"{what} at {to} now.{already}", reverse("move-undo"), values)


def _where(part: Part) -> str:
    if part.location is None and part.inside is None:
        return "Nobody has recorded where it is."
    return f"It is now {f'inside {part.inside}' if part.inside else f'at {part.location}'}."


def _left_over(form: MoveManyForm, unknown: list[str]) -> MoveManyForm:
    """Return the form with only what names no part, and the words for it."""
    left = MoveManyForm({**form.data.dict(), "pieces": "\n".join(unknown)})  # type: ignore[attr-defined]
    named = "This line names" if len(unknown) == 1 else f"These {len(unknown)} lines name"
    left.add_error(
        "pieces", f"{named} no part that is in the catalog: mend it here and send it again."
    )
    return left
