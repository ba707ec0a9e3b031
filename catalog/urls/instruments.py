"""Addresses of the instruments that pieces are measured with."""

from django.urls import path

from catalog.views import instruments

urlpatterns = [
    path("instruments/", instruments.instrument_list, name="instrument-list"),
    path("instruments/add/", instruments.instrument_add, name="instrument-add"),
    path("instruments/<int:pk>/", instruments.instrument_detail, name="instrument-detail"),
    path("instruments/<int:pk>/change/", instruments.instrument_change, name="instrument-change"),
]
