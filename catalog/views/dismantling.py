"""Taking a vehicle apart and putting it back, each in its order."""

from django.http import HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_safe

from catalog.http import MemberRequest
from catalog.models import Vehicle
from catalog.printing.papers import paper_named
from catalog.printing.putting_back import putting_back_sheet
from catalog.queries.dismantling import dismantling_of
from catalog.views.fetch import fetch
from catalog.views.papers import full_address, pdf_answer
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


@require_safe
def putting_back_print(request: MemberRequest, slug: str) -> HttpResponse:
    vehicle = fetch(Vehicle.objects.select_related("vehicle_class"), request, slug=slug)
    address = full_address(request, reverse("vehicle-dismantling", args=[slug]))
    paper = paper_named(request.GET.get("paper", ""))
    pdf = putting_back_sheet(vehicle, dismantling_of(vehicle), address=address, paper=paper)
    return pdf_answer(pdf, f"putting-back-{vehicle.slug}")
