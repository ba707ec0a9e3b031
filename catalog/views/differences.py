"""How vehicles differ: from their class, and from one another."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.forms.vehicles import DifferenceForm
from catalog.http import MemberRequest
from catalog.models import Deviation, Vehicle
from catalog.models.members import Role
from catalog.operations.deviations import remove_deviation
from catalog.operations.vehicles import record_difference
from catalog.queries.differences import compare
from catalog.queries.vehicles import differences_of
from catalog.views.fetch import fetch, refusals_shown_in, require
from catalog.views.sheets import vehicle_cells, vehicle_sheets


@require_http_methods(["GET", "HEAD", "POST"])
def vehicle_differences(request: MemberRequest, slug: str) -> HttpResponse:
    vehicle = fetch(Vehicle.objects.select_related("vehicle_class"), request, slug=slug)
    form = DifferenceForm(request.POST if request.method == "POST" else None, vehicle=vehicle)
    if request.method == "POST" and require(request, Role.CURATOR) and form.is_valid():
        with refusals_shown_in(form):
            record_difference(vehicle, **form.cleaned_data, by=request.user)
            return redirect("vehicle-differences", slug)
    context = {
        "vehicle": vehicle,
        "cells": vehicle_cells(vehicle),
        "sheets": vehicle_sheets(vehicle, "Differences"),
        "differences": differences_of(vehicle),
        "others": vehicle.vehicle_class.vehicles.kept().exclude(pk=vehicle.pk),
        "form": form,
    }
    return render(request, "catalog/vehicles/differences.html", context)


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
