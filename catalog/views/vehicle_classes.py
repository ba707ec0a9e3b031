"""Vehicle classes on the screen: the design, what it consists of, and the vehicles built to it."""

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.filters.vehicle_classes import VehicleClassFilter
from catalog.forms.vehicle_classes import ClassDifferenceForm, VehicleClassForm
from catalog.http import MemberRequest
from catalog.models import Deviation, VehicleClass
from catalog.models.members import Role
from catalog.operations.deviations import record_deviation, remove_deviation
from catalog.operations.vehicle_classes import change_vehicle_class, record_vehicle_class
from catalog.queries.publication import visibility_of
from catalog.queries.vehicle_classes import class_sheet
from catalog.templatetags.formatting import gauge_words
from catalog.views import public
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form
from catalog.views.pages import page_of


@require_safe
@members_only()
def vehicle_class_list(request: MemberRequest) -> HttpResponse:
    chosen = VehicleClassFilter(request.GET, VehicleClass.objects.for_list())
    context = {"filter": chosen, "page": page_of(chosen.qs, request)}
    return render(request, "catalog/vehicle_classes/list.html", context)


@login_not_required
@require_safe
def vehicle_class_detail(request: HttpRequest, slug: str) -> HttpResponse:
    """Show visitors what is published of the class, and members its record."""
    if public.is_visitor(request):
        return public.public_class(request, slug)
    rows = VehicleClass.objects.select_related("builder", "based_on", "withdrawn_by")
    kind = fetch(rows.prefetch_related("citations__source"), request, slug=slug)
    context = {
        "class": kind,
        "design": class_sheet(kind),
        "cells": _cells(kind),
        "heading": kind.name or kind.designation,
        "vehicles": kind.vehicles.kept().in_restoration_order(),
        "visibility": visibility_of(kind),
        "variants": kind.variants.kept(),
        "photos": kind.photos.in_order().filter(drawings__isnull=True),
    }
    return render(request, "catalog/vehicle_classes/detail.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@members_only(Role.CURATOR)
def vehicle_class_add(request: MemberRequest) -> HttpResponse:
    form = VehicleClassForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            kind = record_vehicle_class(form.values(), by=request.user)
            messages.success(request, f"{kind} is recorded. Now say which positions it has.")
            return redirect(kind)
    page = FormPage(
        "Add a vehicle class", reverse("vehicle-class-list"), lead="Only a designation is needed."
    )
    return show_form(request, form, page)


@require_http_methods(["GET", "HEAD", "POST"])
def vehicle_class_change(request: MemberRequest, pk: int) -> HttpResponse:
    kind = fetch(VehicleClass.objects.kept(), request, Role.CURATOR, pk=pk)
    page = FormPage(f"Change {kind}", kind.get_absolute_url())
    form = VehicleClassForm(request.POST if request.method == "POST" else None, instance=kind)
    if form.is_valid():
        with refusals_shown_in(form):
            change_vehicle_class(kind, form.values(), by=request.user, seen=form.seen_version)
            messages.success(request, "Saved. The former version is in the history.")
            return redirect(kind)
    return show_form(request, form, page)


@require_http_methods(["GET", "HEAD", "POST"])
def class_difference_add(request: MemberRequest, pk: int) -> HttpResponse:
    rows = VehicleClass.objects.kept().filter(based_on__isnull=False).select_related("based_on")
    kind = fetch(rows, request, Role.CURATOR, pk=pk)
    data = request.POST if request.method == "POST" else None
    form = ClassDifferenceForm(data, vehicle_class=kind)
    if form.is_valid():
        with refusals_shown_in(form):
            record_deviation(vehicle_class=kind, **form.cleaned_data, by=request.user)
            return redirect(kind)
    page = FormPage(f"How {kind} differs from {kind.based_on}", kind.get_absolute_url())
    return show_form(request, form, page)


@require_POST
def class_difference_remove(request: MemberRequest, pk: int) -> HttpResponse:
    rows = Deviation.objects.filter(vehicle_class__isnull=False).select_related("vehicle_class")
    deviation = fetch(rows, request, Role.CURATOR, pk=pk)
    kind = deviation.vehicle_class
    remove_deviation(deviation, by=request.user)
    messages.success(request, f"Taken back: {deviation.reason}.")
    return redirect(kind or "vehicle-class-list")


def _cells(kind: VehicleClass) -> list[tuple[str, object]]:
    """Return the ruled cells of the title block."""
    return [
        ("Gauge", gauge_words(kind.gauge_mm) or kind.gauge_text),
        ("Wheels", kind.wheel_arrangement),
        ("Builder", kind.builder),
        ("Built", kind.date_text),
        ("Based on", kind.based_on),
        ("Visitors see it", "yes" if kind.is_published else "no"),
    ]
