"""Taking a vehicle apart and putting it back, each in its order."""

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from catalog.http import MemberRequest
from catalog.models import Vehicle
from catalog.queries.dismantling import dismantling_of
from catalog.views.fetch import fetch
from catalog.views.sheets import vehicle_cells, vehicle_sheets


@require_safe
def vehicle_dismantling(request: MemberRequest, slug: str) -> HttpResponse:
    vehicle = fetch(Vehicle.objects.select_related("vehicle_class"), request, slug=slug)
    context = {
        "vehicle": vehicle,
        "cells": vehicle_cells(vehicle),
        "sheets": vehicle_sheets(vehicle, "Dismantling"),
        "dismantling": dismantling_of(vehicle),
    }
    return render(request, "catalog/vehicles/dismantling.html", context)
