"""Drawings of classes on the screen, and setting the spots of positions by a tap."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from catalog.forms.vehicle_classes import DrawingForm, SpotForm
from catalog.http import MemberRequest
from catalog.models import Drawing, PositionSpot, VehicleClass
from catalog.models.members import Role
from catalog.operations.drawings import (
    add_drawing_from_file,
    place_spot,
    remove_drawing,
    remove_spot,
)
from catalog.queries.drawings import codes_at, next_without_spot, spots_of
from catalog.views.fetch import fetch, refusals_shown_in
from catalog.views.form_pages import FormPage, sent, show_form

WITH_CLASS = Drawing.objects.select_related("vehicle_class", "picture", "source")


@require_http_methods(["GET", "HEAD", "POST"])
def drawing_add(request: MemberRequest, pk: int) -> HttpResponse:
    kind = fetch(VehicleClass.objects.kept(), request, Role.CURATOR, pk=pk)
    form = DrawingForm(*sent(request))
    if form.is_valid():
        with refusals_shown_in(form):
            drawing = add_drawing_from_file(kind, **form.cleaned_data, by=request.user)
            return redirect("drawing-spots", drawing.pk)
    page = FormPage(
        f"Add a drawing of {kind}", kind.get_absolute_url(), save="Save and place positions"
    )
    return show_form(request, form, page)


@require_http_methods(["GET", "HEAD", "POST"])
def drawing_spots(request: MemberRequest, pk: int) -> HttpResponse:
    drawing = fetch(WITH_CLASS, request, Role.CURATOR, pk=pk)
    form = SpotForm(
        request.POST if request.method == "POST" else None,
        vehicle_class=drawing.vehicle_class,
        initial={"position": next_without_spot(drawing)},
    )
    if form.is_valid():
        with refusals_shown_in(form):
            told = form.cleaned_data
            x, y = told["across"] / 100, told["down"] / 100
            place_spot(told["position"], drawing, x, y, by=request.user)
            messages.success(request, f"{told['position']} is placed.")
            return redirect("drawing-spots", pk)
    spots = spots_of(drawing)
    context = {"drawing": drawing, "form": form, "spots": spots, "marks": codes_at(spots)}
    return render(request, "catalog/vehicle_classes/spots.html", context)


@require_POST
def drawing_spot_remove(request: MemberRequest, pk: int) -> HttpResponse:
    rows = PositionSpot.objects.select_related("position__component")
    spot = fetch(rows, request, Role.CURATOR, pk=pk)
    remove_spot(spot, by=request.user)
    messages.success(request, f"{spot.position} is no longer on the drawing.")
    return redirect("drawing-spots", spot.drawing_id)


@require_POST
def drawing_remove(request: MemberRequest, pk: int) -> HttpResponse:
    drawing = fetch(WITH_CLASS, request, Role.CURATOR, pk=pk)
    kind = drawing.vehicle_class
    remove_drawing(drawing, by=request.user)
    messages.success(request, f"“{drawing}” is removed. Its picture stays among the photographs.")
    return redirect(kind)
