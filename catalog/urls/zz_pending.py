"""Addresses whose pages are being built; each leaves this list when its page is there."""

from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.urls import path

PENDING = {
}


@login_not_required
def pending(request: HttpRequest, **which: object) -> HttpResponse:
    raise Http404("This page is being built.")


urlpatterns = [path(route, pending, name=name) for name, route in PENDING.items()]
