"""Addresses of the provenance of vehicles and parts."""

from django.urls import path

from catalog.views import provenance

urlpatterns = [
    path("provenance/<slug:kind>/<int:pk>/", provenance.provenance, name="provenance"),
    path("provenance/<slug:kind>/<int:pk>/add/", provenance.event_add, name="event-add"),
    path("provenance/events/<int:pk>/change/", provenance.event_change, name="event-change"),
]
