"""Pages for visitors, signed in or not: published records, and nothing private of them."""

from typing import TypeVar

from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.views import redirect_to_login
from django.db import models
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from catalog.models import Member, Part, Patent, Vehicle, VehicleClass
from catalog.models.members import Role
from catalog.queries.public import public_patent as told_of_patent
from catalog.queries.public import public_vehicle as told_of_vehicle
from catalog.queries.public import public_vehicles
from catalog.queries.public_classes import public_class as told_of_class
from catalog.queries.public_parts import public_part_rows, public_part_sheet, published_parts
from catalog.views.pages import page_of

Row = TypeVar("Row", bound=models.Model)


def is_visitor(request: HttpRequest) -> bool:
    """Tell whether whoever asks may see published records only, or wants to see as visitors do."""
    return not _is_member(request) or request.GET.get("as") == "visitor"


def _is_member(request: HttpRequest) -> bool:
    return isinstance(request.user, Member) and request.user.may(Role.VOLUNTEER)


def _shown(rows: models.QuerySet[Row], request: HttpRequest) -> models.QuerySet[Row]:
    """Leave out what is not published, unless a member looks at how it would be shown."""
    return rows if _is_member(request) else rows.filter(is_published=True)


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
    rows = _shown(Vehicle.objects.kept().select_related("vehicle_class"), request)
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
    patent = get_object_or_404(_shown(Patent.objects.kept(), request), pk=pk)
    return render(request, "catalog/public/patent.html", {"told": told_of_patent(patent)})


@login_not_required
@require_safe
def public_part_list(request: HttpRequest) -> HttpResponse:
    page = page_of(published_parts().in_numerical_order(), request)
    context = {"page": page, "rows": public_part_rows(list(page.object_list))}
    return render(request, "catalog/public/parts.html", context)


@login_not_required
@require_safe
def public_part(request: HttpRequest, pk: int) -> HttpResponse:
    """Show a published part; whoever scanned the tag of another one is asked to sign in."""
    rows = Part.objects.for_list() if _is_member(request) else published_parts()
    part = rows.filter(pk=pk).first()
    if part is None and not request.user.is_authenticated:
        return redirect_to_login(request.get_full_path())
    if part is None:
        raise Http404("This part is not published.")
    return render(request, "catalog/public/part.html", {"told": public_part_sheet(part)})


@login_not_required
@require_safe
def public_class(request: HttpRequest, slug: str) -> HttpResponse:
    rows = VehicleClass.objects.kept().select_related("builder")
    told = told_of_class(get_object_or_404(_shown(rows, request), slug=slug))
    return render(request, "catalog/public/class.html", {"told": told})
