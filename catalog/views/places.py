"""Locations on the screen: the tree, and what each place holds; for members only."""

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from catalog.forms.places import LocationForm
from catalog.http import MemberRequest
from catalog.models import Location
from catalog.operations.places import change_location, record_location
from catalog.queries.photos import main_photos
from catalog.queries.places import location_tree, parts_below, places_above, places_inside
from catalog.queries.shed_maps import shed_map as map_of_shed
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form
from catalog.views.pages import page_of


@require_safe
@members_only()
def location_list(request: MemberRequest) -> HttpResponse:
    return render(request, "catalog/places/list.html", {"branches": location_tree()})


@require_safe
@members_only()
def shed_map(request: MemberRequest) -> HttpResponse:
    place = request.GET.get("in", "")
    inside = get_object_or_404(Location.objects.kept(), pk=place) if place.isdecimal() else None
    drawn = map_of_shed(request.GET.get("words", "").strip()[:200], inside=inside)
    cells = [("Places", str(len(drawn.branches))), ("Parts in them", str(drawn.parts_placed))]
    context = {"map": drawn, "cells": [*cells, ("Drawn", timezone.localdate())]}
    return render(request, "catalog/places/map.html", context)


@require_safe
def location_detail(request: MemberRequest, pk: int) -> HttpResponse:
    location = fetch(Location.objects.for_detail(), request, pk=pk)
    page = page_of(parts_below(location), request)
    photos = main_photos("part", [part.pk for part in page])
    context = {
        "location": location,
        "above": places_above(location),
        "children": places_inside(location),
        "page": page,
        "pictured": [(part, photos.get(part.pk)) for part in page],
        "vehicles": location.vehicles_at_home.for_list(),
        "photos": location.photos.in_order(),
    }
    return render(request, "catalog/places/detail.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def location_add(request: MemberRequest) -> HttpResponse:
    inside = {"parent": request.GET.get("in")}
    form = LocationForm(request.POST if request.method == "POST" else None, initial=inside)
    if form.is_valid():
        with refusals_shown_in(form):
            return redirect(record_location(form.values(), by=request.user))
    return show_form(request, form, FormPage("Add a location", reverse("location-list")))


@require_http_methods(["GET", "HEAD", "POST"])
def location_change(request: MemberRequest, pk: int) -> HttpResponse:
    location = fetch(Location.objects.kept(), request, pk=pk)
    form = LocationForm(request.POST if request.method == "POST" else None, instance=location)
    if form.is_valid():
        with refusals_shown_in(form):
            change_location(location, form.values(), by=request.user, seen=form.seen_version)
            return redirect(location)
    return show_form(request, form, FormPage(f"Change {location}", location.get_absolute_url()))
