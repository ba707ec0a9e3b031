"""Addresses of surviving examples elsewhere."""

from django.urls import path

from catalog.views import survivors

urlpatterns = [
    path("survivors/", survivors.survivor_list, name="survivor-list"),
    path("survivors/<int:pk>/", survivors.survivor_detail, name="survivor-detail"),
    path("survivors/<int:pk>/class/", survivors.survivor_class, name="survivor-class"),
    path("survivors/<int:pk>/print/", survivors.survivor_print, name="survivor-print"),
]
