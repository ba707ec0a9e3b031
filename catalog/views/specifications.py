"""Limits on the screen: what a characteristic may measure, as new and when worn."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.positions import SpecificationForm
from catalog.http import MemberRequest
from catalog.models import Specification, VehicleClass
from catalog.models.members import Role
from catalog.operations.specifications import (
    add_specification,
    change_specification,
    remove_specification,
)
from catalog.views.fetch import fetch, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form

LEAD = "Type lengths as you write them. A limit left empty is open on that side."


@require_http_methods(["GET", "HEAD", "POST"])
def specification_add(request: MemberRequest, pk: int) -> HttpResponse:
    kind = fetch(VehicleClass.objects.kept(), request, Role.CURATOR, pk=pk)
    data = request.POST if request.method == "POST" else None
    initial = {"characteristic": request.GET.get("characteristic")}
    form = SpecificationForm(data, vehicle_class=kind, initial=initial)
    if form.is_valid():
        with refusals_shown_in(form):
            row = add_specification(vehicle_class=kind, **form.values(), by=request.user)
            messages.success(request, f"Limits for {row.characteristic} recorded.")
            return redirect(kind)
    page = FormPage(f"Add limits to {kind}", kind.get_absolute_url(), lead=LEAD)
    return show_form(request, form, page)


@require_http_methods(["GET", "HEAD", "POST"])
def specification_change(request: MemberRequest, pk: int) -> HttpResponse:
    rows = Specification.objects.select_related("vehicle_class", "characteristic")
    row = fetch(rows, request, Role.CURATOR, pk=pk)
    kind = row.vehicle_class
    page = FormPage(
        f"Change the limits for {row.characteristic} on {kind}",
        kind.get_absolute_url(),
        lead=LEAD,
        remove_url=reverse("specification-remove", args=[pk]),
        remove_words="Remove these limits",
    )
    data = request.POST if request.method == "POST" else None
    form = SpecificationForm(data, instance=row, vehicle_class=kind)
    if form.is_valid():
        with refusals_shown_in(form):
            change_specification(row, form.values(), by=request.user, seen=form.seen_version)
            return redirect(kind)
    return show_form(request, form, page)


@require_POST
def specification_remove(request: MemberRequest, pk: int) -> HttpResponse:
    rows = Specification.objects.select_related("vehicle_class", "characteristic")
    row = fetch(rows, request, Role.CURATOR, pk=pk)
    remove_specification(row, by=request.user)
    messages.success(request, f"The limits for {row.characteristic} are removed.")
    return redirect(row.vehicle_class)
