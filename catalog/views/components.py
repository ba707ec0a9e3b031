"""Components on the screen: what each is called, measured by, mates with, and where it goes."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from catalog.filters.components import ComponentFilter
from catalog.forms.components import ComponentForm
from catalog.http import MemberRequest
from catalog.models import Component
from catalog.operations.components import change_component, record_component
from catalog.queries.components import (
    components_listed,
    names_by_usage,
    namesakes_of,
    pieces_in_hand,
    places_of,
    rules_of,
)
from catalog.queries.measuring_pictures import pictures_of_component
from catalog.queries.sizes_in_hand import sizes_in_hand
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form
from catalog.views.pages import page_of


@require_safe
@members_only()
def component_list(request: MemberRequest) -> HttpResponse:
    chosen = ComponentFilter(request.GET, components_listed())
    context = {"filter": chosen, "page": page_of(chosen.qs, request)}
    return render(request, "catalog/components/list.html", context)


@require_safe
def component_detail(request: MemberRequest, slug: str) -> HttpResponse:
    rows = Component.objects.select_related("broader", "withdrawn_by")
    component = fetch(rows.prefetch_related("aliases", "hazards"), request, slug=slug)
    parts, pieces = pieces_in_hand(component)
    pictures = pictures_of_component(component)
    context = {
        "component": component,
        "cells": _cells(component),
        "names_by_usage": names_by_usage(component).items(),
        "characteristics": component.characteristics.all(),
        "measuring_pictures": pictures,
        "pictured": {one.picture.pk for one in pictures},
        "rules": rules_of(component),
        "marks": component.known_marks.select_related("vehicle_class"),
        "places": places_of(component).items(),
        "narrower": component.narrower.kept(),
        "namesakes": namesakes_of(component),
        "photos": component.photos.in_order(),
        "parts": parts,
        "pieces": pieces,
    }
    return render(request, "catalog/components/detail.html", context)


@require_safe
def component_sizes(request: MemberRequest, slug: str) -> HttpResponse:
    component = fetch(Component.objects.kept(), request, slug=slug)
    context = {"component": component, "spreads": sizes_in_hand(component)}
    return render(request, "catalog/components/sizes.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def component_add(request: MemberRequest) -> HttpResponse:
    form = ComponentForm(
        request.POST if request.method == "POST" else None,
        initial={"name": request.GET.get("name", "")},
    )
    if form.is_valid():
        with refusals_shown_in(form):
            component = record_component(form.values(), by=request.user)
            messages.success(request, f"{component} is in the catalog.")
            return redirect(component)
    page = FormPage("Add a component", reverse("component-list"), lead="Only a name is needed.")
    return show_form(request, form, page)


@require_http_methods(["GET", "HEAD", "POST"])
def component_change(request: MemberRequest, pk: int) -> HttpResponse:
    component = fetch(Component.objects.kept(), request, pk=pk)
    form = ComponentForm(request.POST if request.method == "POST" else None, instance=component)
    page = FormPage(f"Change {component}", component.get_absolute_url())
    if form.is_valid():
        with refusals_shown_in(form):
            change_component(component, form.values(), by=request.user, seen=form.seen_version)
            messages.success(request, "Saved. The former version is in the history.")
            return redirect(component)
    return show_form(request, form, page)


def _cells(component: Component) -> list[tuple[str, object]]:
    """Return the ruled cells of the title block."""
    hours = {"To make one": component.making_hours, "To repair one": component.repair_hours}
    return [
        (label, f"{value.normalize():f} h" if value else None) for label, value in hours.items()
    ]
