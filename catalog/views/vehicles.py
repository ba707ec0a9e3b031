"""Vehicles on the screen: the list in restoration order, the record, adding and changing."""

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.filters.vehicles import VehicleFilter
from catalog.forms.vehicles import VehicleForm
from catalog.http import MemberRequest
from catalog.models import Photo, Vehicle
from catalog.models.members import Role
from catalog.operations.vehicles import (
    change_vehicle,
    leave_restoration_order,
    move_in_restoration_order,
    record_vehicle,
)
from catalog.queries.ages import age_of
from catalog.queries.event_facts import event_facts
from catalog.queries.needs import needs_of
from catalog.queries.provenance import provenance_of
from catalog.queries.publication import visibility_of
from catalog.queries.vehicles import (
    assemblies,
    differences_of,
    plates_of,
    vehicle_rows,
)
from catalog.views import public
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form
from catalog.views.pages import page_of
from catalog.views.sheets import vehicle_cells, vehicle_sheets

MOVES = {"up": -1, "down": 1}


@login_not_required
@require_safe
def vehicle_list(request: HttpRequest) -> HttpResponse:
    """Show visitors the published vehicles, and members all of them."""
    if public.is_visitor(request):
        return public.public_vehicle_list(request)
    chosen = VehicleFilter(request.GET, Vehicle.objects.for_list())
    page = page_of(chosen.qs, request)
    context = {"filter": chosen, "page": page, "rows": vehicle_rows(page.object_list)}
    return render(request, "catalog/vehicles/list.html", context)


@login_not_required
@require_safe
def vehicle_detail(request: HttpRequest, slug: str) -> HttpResponse:
    """Show visitors what is published of the vehicle, and members its record."""
    if public.is_visitor(request):
        return public.public_vehicle(request, slug)
    rows = Vehicle.objects.select_related("vehicle_class__builder", "home_location")
    vehicle = fetch(rows.prefetch_related("citations__source"), request, slug=slug)
    return render(request, "catalog/vehicles/detail.html", _record_sheet(vehicle))


def _record_sheet(vehicle: Vehicle) -> dict[str, object]:
    needs = needs_of(vehicle)
    events = event_facts(vehicle)
    photos = tuple(Photo.objects.in_order().filter(vehicle=vehicle))
    positions, states = [need.position for need in needs.needs], needs.states
    return {
        "vehicle": vehicle,
        "cells": vehicle_cells(vehicle, events=events),
        "sheets": vehicle_sheets(vehicle, "Record"),
        "needs": needs,
        "plates": plates_of(vehicle, positions, states),
        "assemblies": assemblies(positions, states),
        "photos": photos,
        "provenance": provenance_of(vehicle, events=events),
        "age": age_of(vehicle, events=events),
        "visibility": visibility_of(vehicle, photos=photos),
        "differences": differences_of(vehicle),
    }


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def vehicle_add(request: MemberRequest) -> HttpResponse:
    sent = request.POST if request.method == "POST" else None
    form = VehicleForm(sent, may_publish=request.user.is_curator)
    if form.is_valid():
        with refusals_shown_in(form):
            vehicle = record_vehicle(form.values(), by=request.user)
            messages.success(request, f"{vehicle} is recorded.")
            return redirect(vehicle)
    return show_form(request, form, FormPage("Add a vehicle", reverse("vehicle-list")))


@require_http_methods(["GET", "HEAD", "POST"])
def vehicle_change(request: MemberRequest, slug: str) -> HttpResponse:
    vehicle = fetch(Vehicle.objects.kept(), request, slug=slug)
    sent = request.POST if request.method == "POST" else None
    form = VehicleForm(sent, instance=vehicle, may_publish=request.user.is_curator)
    if form.is_valid():
        with refusals_shown_in(form):
            change_vehicle(vehicle, form.values(), by=request.user, seen=form.seen_version)
            return redirect(vehicle)
    return show_form(request, form, FormPage(f"Change {vehicle}", vehicle.get_absolute_url()))


@require_POST
def vehicle_order(request: MemberRequest, slug: str) -> HttpResponse:
    vehicle = fetch(Vehicle.objects.kept(), request, Role.CURATOR, slug=slug)
    where = request.POST.get("move", "")
    if where == "out":
        leave_restoration_order(vehicle, by=request.user)
    else:
        move_in_restoration_order(vehicle, MOVES.get(where, 0), by=request.user)
    return redirect("vehicle-list")
