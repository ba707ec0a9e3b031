"""Addresses whose pages are being built; each leaves this list when its page is there."""

from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.urls import path

PENDING = {
    "home": "",
    "part-list": "parts/",
    "part-detail": "parts/<int:pk>/",
    "vehicle-list": "vehicles/",
    "vehicle-detail": "vehicles/<slug:slug>/",
    "vehicle-class-list": "classes/",
    "vehicle-class-detail": "classes/<slug:slug>/",
    "accession-list": "accessions/",
    "accession-detail": "accessions/<int:year>.<int:serial>/",
    "needs": "needed/",
    "location-list": "locations/",
    "location-detail": "locations/<int:pk>/",
    "source-list": "sources/",
    "source-detail": "sources/<int:pk>/",
    "patent-list": "patents/",
    "patent-detail": "patents/<int:pk>/",
    "part-import": "parts/import/",
    "search": "find/",
    "member-list": "members/",
}


@login_not_required
def pending(request: HttpRequest, **which: object) -> HttpResponse:
    raise Http404("This page is being built.")


urlpatterns = [path(route, pending, name=name) for name, route in PENDING.items()]
