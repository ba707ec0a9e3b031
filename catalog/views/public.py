"""Pages for visitors, signed in or not: published records, and nothing private of them."""

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from catalog.models import Member, Patent, Vehicle
from catalog.models.members import Role
from catalog.queries.public import public_patent as told_of_patent
from catalog.queries.public import public_vehicle as told_of_vehicle
from catalog.queries.public import public_vehicles
from catalog.views.pages import page_of


def is_visitor(request: HttpRequest) -> bool:
    """Tell whether whoever asks may see published records only."""
    return not (isinstance(request.user, Member) and request.user.may(Role.VOLUNTEER))


@login_not_required
@require_safe
def public_home(request: HttpRequest) -> HttpResponse:
    context = {"rows": public_vehicles(), "is_home": True}
    return render(request, "catalog/public/vehicles.html", context)


@login_not_required
@require_safe
def public_vehicle_list(request: HttpRequest) -> HttpResponse:
    return render(request, "catalog/public/vehicles.html", {"rows": public_vehicles()})


@login_not_required
@require_safe
def public_vehicle(request: HttpRequest, slug: str) -> HttpResponse:
    rows = Vehicle.objects.published().select_related("vehicle_class")
    told = told_of_vehicle(get_object_or_404(rows, slug=slug))
    context = {"told": told, "provenance": told.provenance}
    return render(request, "catalog/public/vehicle.html", context)


@login_not_required
@require_safe
def public_patent_list(request: HttpRequest) -> HttpResponse:
    page = page_of(Patent.objects.for_list().filter(is_published=True), request)
    return render(request, "catalog/public/patents.html", {"page": page})


@login_not_required
@require_safe
def public_patent(request: HttpRequest, pk: int) -> HttpResponse:
    patent = get_object_or_404(Patent.objects.kept().filter(is_published=True), pk=pk)
    return render(request, "catalog/public/patent.html", {"told": told_of_patent(patent)})
