"""The home page: the shop today for members, the published vehicles for everybody else."""

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from catalog.queries.shop import shop_today
from catalog.views.public import is_visitor, public_home


@login_not_required
@require_safe
def home(request: HttpRequest) -> HttpResponse:
    if is_visitor(request):
        return public_home(request)
    return render(request, "catalog/shop/today.html", {"shop": shop_today()})
