"""Addresses that tell whether the site is alive and ready."""

from django.urls import path

from catalog.views import health

urlpatterns = [
    path("livez", health.alive, name="alive"),
    path("readyz", health.ready, name="ready"),
]
