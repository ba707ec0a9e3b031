"""A part held against a figure of a patent: said on the part's page, looked at side by side."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from catalog.forms.patents import PartLikenessForm
from catalog.http import MemberRequest
from catalog.models import Likeness, Part
from catalog.operations.patents import add_likeness
from catalog.queries.photos import photos_for
from catalog.views.fetch import fetch, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form


@require_safe
def likeness_detail(request: MemberRequest, pk: int) -> HttpResponse:
    rows = Likeness.objects.select_related(
        "figure__patent", "figure__picture", "part__component", "component"
    )
    likeness = fetch(rows, request, pk=pk)
    subject = likeness.part or likeness.component
    context = {
        "likeness": likeness,
        "subject": subject,
        "photos": photos_for(subject) if subject else [],
        "characters": likeness.figure.characters.select_related("component"),
    }
    return render(request, "catalog/patents/likeness.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def part_likeness_add(request: MemberRequest, pk: int) -> HttpResponse:
    part = fetch(Part.objects.kept(), request, pk=pk)
    form = PartLikenessForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            likeness = add_likeness(part=part, **form.cleaned_data, by=request.user)
            messages.success(request, f"Recorded: {likeness}.")
            return redirect("likeness-detail", likeness.pk)
    page = FormPage(f"Hold {part} against a figure", part.get_absolute_url())
    return show_form(request, form, page)
