"""Limits on the screen: what a characteristic may measure, as new and when worn."""

from typing import Any

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
from catalog.queries.vehicle_classes import limits_taken_over
from catalog.views.fetch import fetch, key_of, refusals_shown_in
from catalog.views.form_pages import FormPage, show_form

LIMITS = ("lower_mm", "upper_mm", "worn_lower_mm", "worn_upper_mm")
LEAD = "Type lengths as you write them. A limit left empty is open on that side."


@require_http_methods(["GET", "HEAD", "POST"])
def specification_add(request: MemberRequest, pk: int) -> HttpResponse:
    kind = fetch(VehicleClass.objects.kept(), request, Role.CURATOR, pk=pk)
    back = _where_from(kind, request)
    data = request.POST if request.method == "POST" else None
    form = SpecificationForm(data, vehicle_class=kind, initial=_beginning_with(kind, request))
    if form.is_valid():
        with refusals_shown_in(form):
            row = add_specification(vehicle_class=kind, **form.values(), by=request.user)
            messages.success(request, told_of(row))
            return redirect(back)
    page = FormPage(f"Add limits to {kind}", back, lead=LEAD)
    return show_form(request, form, page)


def told_of(row: Specification) -> str:
    """Say that limits are recorded, and which they stand in the place of."""
    told = f"Limits for {row.characteristic} recorded."
    former = None
    if row.vehicle_id is None:
        former = limits_taken_over(
            row.vehicle_class, row.characteristic_id, position=row.position_id
        )
    if former is None:
        return told
    return f"{told} They stand in the place of all that {former.vehicle_class} says: {former}."


def _where_from(kind: VehicleClass, request: MemberRequest) -> str:
    """Return the page that led here: how the vehicle asked for differs, else the class."""
    key = key_of(request.GET.get("vehicle", ""))
    vehicle = kind.vehicles.kept().filter(pk=key).first() if key else None
    if vehicle is None:
        return kind.get_absolute_url()
    return reverse("vehicle-differences", args=[vehicle.slug])


def _beginning_with(kind: VehicleClass, request: MemberRequest) -> dict[str, Any]:
    """Return what the form begins with: where the limits are to hold, as the address says.

    Where a base says something of the size, that comes too, so that one limit can differ.
    """
    asked = {name: request.GET.get(name, "") for name in ("characteristic", "vehicle", "position")}
    key = key_of(asked["characteristic"])
    former = limits_taken_over(kind, key) if key else None
    if former is None:
        return asked
    names = ("characteristic", *LIMITS, "is_required")
    return {**asked, **{name: getattr(former, name) for name in names}}


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
            told = f"Limits for {row.characteristic} saved. The former version is in the history."
            messages.success(request, told)
            return redirect(kind)
    return show_form(request, form, page)


@require_POST
def specification_remove(request: MemberRequest, pk: int) -> HttpResponse:
    rows = Specification.objects.select_related("vehicle_class", "characteristic")
    row = fetch(rows, request, Role.CURATOR, pk=pk)
    remove_specification(row, by=request.user)
    messages.success(request, f"The limits for {row.characteristic} are removed.")
    return redirect(row.vehicle_class)
