"""What is needed: all vehicles, one vehicle, one position, and the best use of what is in hand."""

from dataclasses import dataclass
from functools import partial

from django.core.paginator import Page, Paginator
from django.http import Http404, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from catalog.forms.needs import OpenPositionsForm
from catalog.http import MemberRequest
from catalog.models import Position, Vehicle
from catalog.printing.needs_sheets import needs_sheets
from catalog.printing.papers import paper_named
from catalog.queries.asks import asks_of
from catalog.queries.balances import balances_of
from catalog.queries.needs import (
    PositionNeed,
    VehicleNeeds,
    nearest_first,
    needs_of,
    needs_of_shop,
)
from catalog.queries.needs_papers import needs_papers
from catalog.queries.open_positions import open_positions
from catalog.queries.plans import plan_best_use, vehicles_to_plan
from catalog.queries.position_sheets import position_sheet
from catalog.queries.routes import NAMES, Kind, PositionRoutes, VehicleRoutes, needs_and_routes
from catalog.queries.shop_plans import plan_of_shop
from catalog.queries.vehicles import plates_of
from catalog.reckoning.section_lining import LININGS
from catalog.views.fetch import fetch, members_only
from catalog.views.papers import full_address, pdf_answer
from catalog.views.sheets import vehicle_cells, vehicle_sheets

VEHICLES_A_PAGE = 20


@dataclass(frozen=True, slots=True)
class ShownAssembly:
    """One assembly on the page: what is to do, each with its routes, and what is done."""

    name: str
    open: list[tuple[PositionNeed, PositionRoutes | None]]
    filled: list[PositionNeed]


@require_safe
@members_only()
def needs(request: MemberRequest) -> HttpResponse:
    vehicles = vehicles_to_plan()
    is_nearest = request.GET.get("order") == "nearest"
    page = _page(_in_order(vehicles, request), request)
    found = needs_of_shop(list(page.object_list))
    context = {
        "page": page,
        "all_needs": [found[vehicle.pk] for vehicle in page],
        "is_nearest": is_nearest,
        "is_restoration": not is_nearest,
        "open_form": OpenPositionsForm(vehicles=vehicles),
        "balances": balances_of(vehicles),
        "plan": plan_of_shop(vehicles).whole,
    }
    return render(request, "catalog/needs/list.html", context)


@require_safe
@members_only()
def needs_open(request: MemberRequest) -> HttpResponse:
    """List the open positions that somebody chose, over so many vehicles at a time."""
    form = OpenPositionsForm(request.GET, vehicles=vehicles_to_plan())
    page = _page(form.chosen_vehicles if form.is_chosen else [], request)
    told = {name: form.cleaned_data.get(name, "") for name in ("assembly", "route")}
    found = open_positions(page.object_list, **told) if form.is_chosen else []
    return render(request, "catalog/needs/open.html", {"form": form, "page": page, "found": found})


@require_safe
@members_only()
def best_use(request: MemberRequest) -> HttpResponse:
    return render(request, "catalog/needs/best_use.html", {"plan": plan_best_use()})


@require_safe
def vehicle_needs(request: MemberRequest, slug: str) -> HttpResponse:
    vehicle = fetch(Vehicle.objects.select_related("vehicle_class"), request, slug=slug)
    # Weighing every route takes longer than all the rest, so it waits until somebody asks.
    if "route" in request.GET:
        found, routes = needs_and_routes(vehicle)
    else:
        found, routes = needs_of(vehicle), None
    states = {need.position.pk: need.state for need in found.needs}
    addresses = {need.position.pk: need.get_absolute_url() for need in found.needs}
    positions = [need.position for need in found.needs]
    context = {
        "needs": found,
        "routes": routes,
        **(_asked(found, routes) if routes else {}),
        "vehicle": vehicle,
        "may_fit": request.user.is_curator,
        "cells": vehicle_cells(vehicle),
        "sheets": vehicle_sheets(vehicle, "Needs"),
        "plates": plates_of(vehicle, positions, states, link=lambda p: addresses[p.pk]),
        **_chosen(found, routes, request),
    }
    return render(request, "catalog/needs/vehicle.html", context)


@require_safe
def position_detail(request: MemberRequest, slug: str, pk: int) -> HttpResponse:
    vehicle = fetch(Vehicle.objects.select_related("vehicle_class"), request, slug=slug)
    position = fetch(Position.objects.select_related("component"), request, pk=pk)
    sheet = position_sheet(vehicle, position)
    if sheet is None:
        raise Http404(f"{position.code} is not a position of {vehicle}.")
    context = {"sheet": sheet, "need": sheet.need, "vehicle": vehicle, "position": position}
    return render(request, "catalog/needs/position.html", context)


@require_safe
def needs_print(request: MemberRequest, slug: str) -> HttpResponse:
    vehicle = fetch(Vehicle.objects.select_related("vehicle_class"), request, slug=slug)
    return pdf_answer(_printed([vehicle], request), f"needs-{vehicle.slug}")


@require_safe
@members_only()
def needs_print_all(request: MemberRequest) -> HttpResponse:
    """Print the sheets of the vehicles on a page of the list, in the order of that page."""
    page = list(_page(_in_order(vehicles_to_plan(), request), request).object_list)
    if not page:
        raise Http404("No vehicle is recorded yet.")
    return pdf_answer(_printed(page, request), "needs")


def _printed(vehicles: list[Vehicle], request: MemberRequest) -> bytes:
    return needs_sheets(
        needs_papers(vehicles),
        address=partial(full_address, request),
        paper=paper_named(request.GET.get("paper", "")),
    )


def _in_order(vehicles: list[Vehicle], request: MemberRequest) -> list[Vehicle]:
    return nearest_first(vehicles) if request.GET.get("order") == "nearest" else vehicles


def _page(vehicles: list[Vehicle], request: MemberRequest) -> Page[Vehicle]:
    return Paginator(vehicles, VEHICLES_A_PAGE).get_page(request.GET.get("page"))


def _asked(found: VehicleNeeds, routes: VehicleRoutes) -> dict[str, object]:
    """Return what the plan for all gives the vehicle, and what is to be asked for."""
    plan = plan_of_shop(vehicles_to_plan()).vehicles.get(found.vehicle.pk)
    return {"plan": plan, "asks": asks_of(found, routes, plan)}


def _chosen(
    found: VehicleNeeds, routes: VehicleRoutes | None, request: MemberRequest
) -> dict[str, object]:
    """Return what the address chooses among assemblies, states and routes, and all there are."""
    assembly, state = request.GET.get("assembly"), request.GET.get("state", "")
    route = request.GET.get("route", "")
    by_position = {one.position.pk: one for one in routes.positions} if routes else {}

    def is_shown(need: PositionNeed) -> bool:
        own = by_position.get(need.position.pk)
        is_on_route = route not in NAMES or (own is not None and own.has(route))
        return state in ("", need.state) and is_on_route

    shown = [
        ShownAssembly(
            one.name,
            [(n, by_position.get(n.position.pk)) for n in needs if not n.is_filled],
            [need for need in needs if need.is_filled],
        )
        for one in found.assemblies
        if assembly in (None, one.name) and (needs := [n for n in one.needs if is_shown(n)])
    ]
    return {
        "shown": shown,
        "assembly": assembly,
        "state": state if state in LININGS else "",
        "route": route,
        "route_choices": _route_choices(routes) if routes else [],
        "is_all": assembly is None and not state and not route,
        "all_positions": f"{found.get_absolute_url()}#positions",
    }


def _route_choices(routes: VehicleRoutes) -> list[tuple[Kind, str, int]]:
    """Return the routes that some position has, with how many positions have each."""
    counts = {kind: sum(one.has(kind) for one in routes.positions) for kind in Kind}
    return [(kind, NAMES[kind], count) for kind, count in counts.items() if count]
