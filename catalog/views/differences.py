"""How vehicles differ: from their class, and from one another."""

from urllib.parse import urlencode

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.forms.vehicles import DifferenceForm
from catalog.http import MemberRequest
from catalog.models import Deviation, Vehicle
from catalog.models.members import Role
from catalog.operations.deviations import remove_deviation
from catalog.operations.vehicles import record_difference
from catalog.queries.differences import compare, differences_told
from catalog.views.fetch import fetch, refusals_shown_in, require
from catalog.views.sheets import vehicle_cells, vehicle_sheets


@require_http_methods(["GET", "HEAD", "POST"])
def vehicle_differences(request: MemberRequest, slug: str) -> HttpResponse:
    vehicle = fetch(Vehicle.objects.select_related("vehicle_class"), request, slug=slug)
    form = DifferenceForm(request.POST if request.method == "POST" else None, vehicle=vehicle)
    if request.method == "POST" and require(request, Role.CURATOR) and form.is_valid():
        with refusals_shown_in(form):
            difference = record_difference(vehicle, **form.cleaned_data, by=request.user)
            messages.success(request, _recorded(difference))
            return redirect(_next_page(vehicle, difference))
    context = {
        "vehicle": vehicle,
        "cells": vehicle_cells(vehicle),
        "sheets": vehicle_sheets(vehicle, "Differences"),
        "differences": differences_told(vehicle),
        "own_positions": vehicle.own_positions.select_related("component"),
        "others": vehicle.vehicle_class.vehicles.kept().exclude(pk=vehicle.pk),
        "form": form,
    }
    return render(request, "catalog/vehicles/differences.html", context)


def _recorded(difference: Deviation) -> str:
    if difference.kind != Deviation.Kind.RESPECIFIED:
        return f"Recorded: {difference.reason}"
    return (
        f"Recorded. Now write down the limits that hold at {difference.position} of "
        f"{difference.vehicle}: what is measured, and what it may be."
    )


def _next_page(vehicle: Vehicle, difference: Deviation) -> str:
    """Lead to the form for limits where others hold: words alone rule no part in or out."""
    if difference.kind == Deviation.Kind.RESPECIFIED:
        where = {"vehicle": vehicle.pk, "position": difference.position_id}
        return f"{reverse('specification-add', args=[vehicle.vehicle_class_id])}?{urlencode(where)}"
    return reverse("vehicle-differences", args=[vehicle.slug])


@require_POST
def vehicle_difference_remove(request: MemberRequest, slug: str, pk: int) -> HttpResponse:
    rows = Deviation.objects.filter(vehicle__slug=slug)
    deviation = fetch(rows, request, Role.CURATOR, pk=pk)
    remove_deviation(deviation, by=request.user)
    messages.success(request, f"No longer a difference: {deviation.reason}")
    return redirect("vehicle-differences", slug)


@require_safe
def vehicle_compare(request: MemberRequest, slug: str, other: str) -> HttpResponse:
    rows = Vehicle.objects.select_related("vehicle_class")
    left, right = fetch(rows, request, slug=slug), fetch(rows, request, slug=other)
    context = {
        "left": left,
        "right": right,
        "comparison": compare(left, right),
        "sheets": vehicle_sheets(left, "Differences"),
    }
    return render(request, "catalog/vehicles/compare.html", context)
