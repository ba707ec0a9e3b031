"""The site's addresses, the stock admin of the same parts, and a page with nothing on it."""

from django.contrib import admin
from django.http import HttpRequest, HttpResponse
from django.template import engines
from django.urls import path

from catalog.models import Part
from restoration.urls import urlpatterns as site_patterns

EMPTY = engines["django"].from_string('{% extends "base.html" %}')


class PartAdmin(admin.ModelAdmin):
    """List, filter and search the columns that the site's own list shows."""

    list_display = (
        "number",
        "tag",
        "component",
        "vehicle_class",
        "description",
        "identification_status",
        "usability",
        "location",
        "inside",
        "quantity",
    )
    list_filter = ("identification_status", "usability")
    search_fields = ("number", "tag", "description", "component__name")
    list_per_page = 50


admin.site.register(Part, PartAdmin)


def empty_page(request: HttpRequest) -> HttpResponse:
    return HttpResponse(EMPTY.render({}, request))


urlpatterns = [
    path("admin/", admin.site.urls),
    path("empty/", empty_page, name="empty"),
    *site_patterns,
]
