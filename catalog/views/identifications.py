"""Saying what a part is, and what others think of it."""

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.parts import IdentifyForm, OpinionForm
from catalog.http import MemberRequest
from catalog.models import Identification, Part
from catalog.models.members import Role
from catalog.operations.identifications import give_opinion, propose_identification, take_back
from catalog.views.fetch import fetch, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form

ALONG = ("part", "component", "vehicle_class", "made_by")


@require_http_methods(["GET", "HEAD", "POST"])
def part_identify(request: MemberRequest, pk: int) -> HttpResponse:
    part = fetch(Part.objects.kept(), request, pk=pk)
    form = IdentifyForm(request.POST if request.method == "POST" else None, prefix="identify")
    if form.is_valid():
        with refusals_shown_in(form):
            said = propose_identification(part, by=request.user, **form.cleaned_data)
            of = f" ({part.quantity} pieces)" if part.quantity > 1 else ""
            words = f"You say that {part}{of} is: {said}. A second person has to look too."
            messages.success(request, words)
            return redirect(part)
    page = FormPage(f"What is {part}?", part.get_absolute_url(), save="Say so")
    return show_form(request, form, page)


@require_http_methods(["GET", "HEAD", "POST"])
def identification_opinion(request: MemberRequest, pk: int) -> HttpResponse:
    said = fetch(Identification.objects.select_related(*ALONG), request, Role.CURATOR, pk=pk)
    own = said.opinions.filter(made_by=request.user).first()
    asked = {"agrees": request.GET.get("agrees"), "reasons": own.reasons if own else ""}
    form = OpinionForm(request.POST if request.method == "POST" else None, initial=asked)
    if form.is_valid():
        with refusals_shown_in(form):
            give_opinion(said, by=request.user, **form.cleaned_data)
            messages.success(request, _standing_now(said, form.cleaned_data["agrees"]))
            return redirect(said.part)
    page = FormPage(
        f"{said.part}: is it “{said}”?",
        said.part.get_absolute_url(),
        lead=f"{said.made_by} says so. {said.reasons or 'No reasons are given.'}",
        save="Say so",
    )
    return show_form(request, form, page)


def _standing_now(said: Identification, agrees: bool) -> str:
    """Say what an opinion changed, and what would settle a dispute."""
    part = said.part
    told = f"You {'agree that' if agrees else 'doubt that'} {part} is: {said}."
    told = f"{told} It is now {part.get_identification_status_display()}."
    if agrees:
        return told
    return f"{told} If you know what it is, say so below. A reading or a mark may settle it."


@require_POST
def identification_take_back(request: MemberRequest, pk: int) -> HttpResponse:
    said = fetch(Identification.objects.select_related(*ALONG), request, pk=pk)
    try:
        take_back(said, by=request.user)
    except ValidationError as refusal:
        messages.error(request, " ".join(refusal.messages))
    else:
        messages.success(request, f"You no longer say that {said.part} is: {said}.")
    return redirect(said.part)
