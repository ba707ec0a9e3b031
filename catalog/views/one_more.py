"""What one more piece would change, over all vehicles or for one."""

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from catalog.http import MemberRequest
from catalog.models import Vehicle
from catalog.queries.one_more import shopping_for, what_more
from catalog.views.fetch import fetch, members_only


@require_safe
@members_only()
def one_more(request: MemberRequest) -> HttpResponse:
    if slug := request.GET.get("vehicle"):
        vehicle = fetch(Vehicle.objects.select_related("vehicle_class"), request, slug=slug)
        context = {"vehicle": vehicle, "shopping": shopping_for(vehicle)}
        return render(request, "catalog/needs/shopping.html", context)
    return render(request, "catalog/needs/one_more.html", {"found": what_more()})
