"""Figures of patents: reference characters set by a tap, and what resembles them."""

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.forms.patents import CharacterForm, FigureForm, LikenessForm
from catalog.http import MemberRequest
from catalog.models import Likeness, Patent, PatentFigure, ReferenceCharacter
from catalog.models.members import Role
from catalog.operations.patents import (
    add_character,
    add_figure,
    add_likeness,
    remove_character,
    remove_figure,
    remove_likeness,
)
from catalog.queries.patents import figure_sheet
from catalog.views.fetch import fetch, refusals_shown_in
from catalog.views.form_pages import FormPage, sent, show_form

WITH_PATENT = PatentFigure.objects.select_related("patent", "picture")


@require_http_methods(["GET", "HEAD", "POST"])
def figure_add(request: MemberRequest, pk: int) -> HttpResponse:
    patent = fetch(Patent.objects.kept(), request, pk=pk)
    form = FigureForm(*sent(request))
    if form.is_valid():
        with refusals_shown_in(form):
            figure = add_figure(patent, **form.cleaned_data, by=request.user)
            return redirect("patent-figure", figure.pk)
    page = FormPage(f"Add a figure of {patent}", patent.get_absolute_url(), save="Save the figure")
    return show_form(request, form, page)


@require_safe
def figure_detail(request: MemberRequest, pk: int) -> HttpResponse:
    figure = fetch(WITH_PATENT, request, pk=pk)
    return _page(request, figure, CharacterForm(auto_id="character_%s"), LikenessForm())


@require_POST
def figure_remove(request: MemberRequest, pk: int) -> HttpResponse:
    figure = fetch(WITH_PATENT, request, Role.CURATOR, pk=pk)
    remove_figure(figure, by=request.user)
    return redirect(figure.patent)


@require_POST
def character_add(request: MemberRequest, pk: int) -> HttpResponse:
    figure = fetch(WITH_PATENT, request, pk=pk)
    form = CharacterForm(request.POST, auto_id="character_%s")
    if form.is_valid():
        with refusals_shown_in(form):
            add_character(figure, **form.values(), by=request.user)
            return redirect("patent-figure", pk)
    return _page(request, figure, form, LikenessForm())


@require_POST
def character_remove(request: MemberRequest, pk: int) -> HttpResponse:
    character = fetch(ReferenceCharacter.objects.all(), request, pk=pk)
    remove_character(character, by=request.user)
    return redirect("patent-figure", character.figure_id)


@require_POST
def likeness_add(request: MemberRequest, pk: int) -> HttpResponse:
    figure = fetch(WITH_PATENT, request, pk=pk)
    form = LikenessForm(request.POST)
    if form.is_valid():
        with refusals_shown_in(form):
            add_likeness(figure, **form.cleaned_data, by=request.user)
            return redirect("patent-figure", pk)
    return _page(request, figure, CharacterForm(auto_id="character_%s"), form)


@require_POST
def likeness_remove(request: MemberRequest, pk: int) -> HttpResponse:
    likeness = fetch(Likeness.objects.all(), request, pk=pk)
    remove_likeness(likeness, by=request.user)
    return redirect("patent-figure", likeness.figure_id)


def _page(
    request: MemberRequest, figure: PatentFigure, character: CharacterForm, likeness: LikenessForm
) -> HttpResponse:
    context = {
        "patent": figure.patent,
        "sheet": figure_sheet(figure),
        "character_form": character,
        "likeness_form": likeness,
    }
    return render(request, "catalog/patents/figure.html", context)
