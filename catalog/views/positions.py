"""Positions on the screen, of classes and of single vehicles."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.positions import OwnPositionForm, PositionForm, PositionLinesForm
from catalog.http import MemberRequest
from catalog.models import Position, Vehicle, VehicleClass
from catalog.models.members import Role
from catalog.operations.positions import (
    add_position,
    add_positions,
    change_position,
    remove_position,
)
from catalog.operations.vehicles import add_own_position
from catalog.views.fetch import fetch, refusals_shown_in, refusals_told
from catalog.views.form_pages import FormPage, show_form

WITH_OWNER = Position.objects.select_related("component", "vehicle_class", "vehicle")


@require_http_methods(["GET", "HEAD", "POST"])
def class_position_add(request: MemberRequest, pk: int) -> HttpResponse:
    kind = fetch(VehicleClass.objects.kept(), request, Role.CURATOR, pk=pk)
    form = PositionForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            position = add_position(vehicle_class=kind, **form.values(), by=request.user)
            messages.success(request, f"{kind} has position {position}.")
            return redirect(kind)
    return show_form(request, form, FormPage(f"Add a position to {kind}", kind.get_absolute_url()))


@require_http_methods(["GET", "HEAD", "POST"])
def class_positions_add(request: MemberRequest, pk: int) -> HttpResponse:
    kind = fetch(VehicleClass.objects.kept(), request, Role.CURATOR, pk=pk)
    form = PositionLinesForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            added = add_positions(kind, form.cleaned_data["lines"], by=request.user)
            messages.success(request, f"{len(added)} positions added to {kind}.")
            return redirect(kind)
    page = FormPage(f"Add several positions to {kind}", kind.get_absolute_url())
    return show_form(request, form, page)


@require_http_methods(["GET", "HEAD", "POST"])
def vehicle_position_add(request: MemberRequest, pk: int) -> HttpResponse:
    vehicle = fetch(Vehicle.objects.kept(), request, Role.CURATOR, pk=pk)
    form = OwnPositionForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refusals_shown_in(form):
            position = add_own_position(vehicle, **form.values(), by=request.user)
            messages.success(request, f"{vehicle} has position {position} besides its class's.")
            return redirect(_page_of(position))
    page = FormPage(
        f"Add a position to {vehicle} only",
        reverse("vehicle-differences", args=[vehicle.slug]),
        lead=f"Other vehicles of {vehicle.vehicle_class} do not get it.",
    )
    return show_form(request, form, page)


@require_http_methods(["GET", "HEAD", "POST"])
def position_change(request: MemberRequest, pk: int) -> HttpResponse:
    position = fetch(WITH_OWNER, request, Role.CURATOR, pk=pk)
    owner = _owner(position)
    page = FormPage(
        f"Change {position} of {owner}",
        _page_of(position),
        remove_url=reverse("position-remove", args=[pk]),
        remove_words="Remove this position",
    )
    form = PositionForm(request.POST if request.method == "POST" else None, instance=position)
    if form.is_valid():
        with refusals_shown_in(form):
            change_position(position, form.values(), by=request.user, seen=form.seen_version)
            return redirect(_page_of(position))
    return show_form(request, form, page)


@require_POST
def position_remove(request: MemberRequest, pk: int) -> HttpResponse:
    position = fetch(WITH_OWNER, request, Role.CURATOR, pk=pk)
    owner, page = _owner(position), _page_of(position)
    with refusals_told(request):
        remove_position(position, by=request.user)
        messages.success(request, f"{owner} no longer has position {position}.")
    return redirect(page)


def _owner(position: Position) -> VehicleClass | Vehicle:
    owner = position.vehicle or position.vehicle_class
    if owner is None:
        raise ValueError(f"{position} belongs to no class and no vehicle")
    return owner


def _page_of(position: Position) -> str:
    """Return where the position is listed: with its class, or how its vehicle differs."""
    if position.vehicle is not None:
        return reverse("vehicle-differences", args=[position.vehicle.slug])
    return _owner(position).get_absolute_url()
